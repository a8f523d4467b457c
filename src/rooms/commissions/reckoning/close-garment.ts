import type { Garment } from '../../../domain/commissions/garment.js';
import { type GarmentMark, standingMarks } from '../../../domain/commissions/garment-mark.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { closeGarment as lessonOf } from '../../../domain/lessons/close-garment.js';
import { MODE_WORDS, type Mode } from '../../../domain/making/mode.js';
import type { FrozenReckoning } from '../../../domain/reckoning/frozen-reckoning.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import type { LandingTold } from '../landing/gather-landing.js';
import { garmentSubject } from '../open-commission.js';
import { type ReckoningChoices, reckoningTold } from './gather-reckoning.js';

/** The modes, for a sheet of a closed garment. */
export const modeInWords = (mode: string): string => MODE_WORDS[mode as Mode] ?? mode;

/** What stands in the way of closing a garment, each with where it is mended. */
export type InTheWay = { readonly text: string; readonly href: string };

/** A running clock and cloth that is still promised: both are settled before the figures are frozen. */
export const inTheWay = async (reading: Reading, garment: Garment): Promise<InTheWay[]> => {
  const clocks = await clockBook.ofGarment(reading, garment.id);
  const promised = (await reservationBook.ofCommissions(reading, [garment.commissionId])).filter(
    ({ garmentId }) => garmentId === garment.id,
  );
  return [
    ...(clocks.length > 0 ? [{ text: 'A clock still runs on it. Stop it first.', href: '/bench' }] : []),
    ...(promised.length > 0
      ? [
          {
            text: 'Cloth or trimmings are still promised to it. Issue them, or let the promise go.',
            href: `/commissions/${garment.commissionId}/materials`,
          },
        ]
      : []),
  ];
};

/**
 * Closes a garment: its actuals are frozen with the reckoning and teach from then on.
 *
 * @throws Conflict when it is closed or cancelled already, or something stands in the way; Invalid while there are no rates
 */
export const closeGarment = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  garmentId: string,
  choices: ReckoningChoices,
  words: string,
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const [first] = await inTheWay(writing, garment);
    if (first) throw new Conflict(first.text, 'in-the-way');
    const today = todayIn(clock, (await studioBook.the(writing)).identity.zone);
    const found = await reckoningTold(writing, clock, garmentId, choices, today);
    if (!found) throw new Invalid('What an hour costs is not said yet: begin in Rates.');
    const document = JSON.stringify({
      lesson: 1,
      ...lessonOf({
        garmentId,
        commissionId: garment.commissionId,
        name: garment.name,
        typeId: garment.typeId,
        closedOn: today,
        repeat: 1 + (await madeBefore(writing, garment)),
        plan: found.told.work.plan,
        worked: found.told.work.worked,
        leftOut: found.told.work.leftOut,
        everyTime: await everyTime(writing, found.told),
      }),
      reckoning: found.frozen satisfies FrozenReckoning,
    });
    const mark = await garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'closed',
      operationId: undefined,
      on: today,
      words,
      document,
    });
    writing.says(`Closed the ${garment.name}`, garmentSubject(garment));
    return mark;
  });

/** How many garments of this type were closed for this wearer before. */
const madeBefore = async (reading: Reading, garment: Garment): Promise<number> => {
  const same = (await garmentBook.ofType(reading, garment.typeId, 200)).filter(
    ({ id, wearerId }) => wearerId === garment.wearerId && id !== garment.id,
  );
  const marks = await garmentMarkBook.ofGarments(
    reading,
    same.map(({ id }) => id),
  );
  return [...marks.values()].filter((own) => standingMarks(own).some(({ kind }) => kind === 'closed')).length;
};

/** Entries of own choice whose work is on the list that every such garment begins with. */
const everyTime = async (reading: Reading, { work }: LandingTold): Promise<ReadonlySet<string>> => {
  const known = new Set(
    (await makingBook.operations(reading, work.typeId))
      .filter(({ isMenu }) => !isMenu)
      .map(({ kind }) => kind),
  );
  return new Set(
    work.worked
      .filter(({ cause, kind }) => cause === 'own choice' && known.has(kind))
      .map(({ entryId }) => entryId),
  );
};

/**
 * Opens a closed garment again: the closing is taken back with its reason, both stay on record.
 *
 * @throws Conflict when it is not closed
 */
export const reopenGarment = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  reason: string,
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    const closed = standingMarks(await garmentMarkBook.ofGarment(writing, garmentId)).find(
      ({ kind }) => kind === 'closed',
    );
    if (!closed) throw new Conflict('This garment is not closed.', 'not-closed');
    const back = await garmentMarkBook.takeBack(writing, closed.id, reason);
    writing.says(`Opened the reckoning of the ${garment.name} again: ${reason}`, garmentSubject(garment));
    return back;
  });
