import { isTimeToAsk, type KeepingRule } from '../../../domain/clients/keeping.js';
import { addDays, type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { lastHere } from '../../../storage/holding/last-here.js';
import { madeOn } from '../../../storage/ids.js';
import { PhotoRow } from '../../../storage/rows/fitting/photo.row.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';

/** Somebody who has not been here for so long that the house asks whether to keep what it holds. */
export type LongAway = {
  readonly id: string;
  readonly name: string;
  readonly code: string;
  readonly lastHere: CalendarDate;
};

/** What there is to ask today: clients, longest away first, and how many photographs are kept beyond their consent. */
export const timeToAsk = async (
  reading: Reading,
  clock: Clock,
): Promise<{ rule: KeepingRule; away: LongAway[]; photosOver: number }> => {
  const today = todayIn(clock, (await studioBook.the(reading)).identity.zone);
  const [rule, kept, days] = [
    await keepingBook.rule(reading),
    await keepingBook.all(reading),
    await lastHere(reading),
  ];
  const away: LongAway[] = [];
  for (let after = ''; ; ) {
    const { items, next } = await clientBook.find(reading, '', 500, after);
    for (const client of items) {
      const { until, erasedOn } = kept.get(client.id) ?? {};
      const last = days.get(client.id) ?? madeOn(client.id);
      if (!erasedOn && isTimeToAsk(client, last, rule, today, until))
        away.push({ id: client.id, name: client.name, code: client.code, lastHere: last });
    }
    if (next === undefined) break;
    after = next;
  }
  const photosOver = await reading.manager
    .createQueryBuilder(PhotoRow, 'photo')
    .where('photo.until_day < :today', { today })
    .getCount();
  return {
    rule,
    away: away.toSorted((a, b) => a.lastHere.localeCompare(b.lastHere) || a.name.localeCompare(b.name)),
    photosOver,
  };
};

/** Keeps what is held on somebody for a year more before it is asked again. @throws NotFound */
export const keepLonger = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  clientId: string,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const client = await clientBook.one(writing, clientId);
    const today = todayIn(clock, (await studioBook.the(writing)).identity.zone);
    await keepingBook.keepUntil(writing, clientId, addDays(today, 365));
    writing.says(`Settled to keep what is held on ${client.name} a year longer`, `client/${clientId}`);
  });
