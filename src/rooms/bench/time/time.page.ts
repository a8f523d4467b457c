import { standingEntries } from '../../../domain/bench/worked.js';
import { addDays, type CalendarDate, isCalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading as Kept } from '../../../storage/session.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import type { SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords, dayInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import type { Choice } from '../../../web/words/reading.js';
import { benchCrumb, clockCrumb, forPerson, whoseWords } from '../clock/bench.page.js';
import { clockWords } from '../clock/clock-now.page.js';
import { garmentHead } from '../clock/garment.page.js';
import { personLooking } from '../work/who-works.js';
import { entryRows } from './entry-rows.js';

/** How the page of a day is looked at. */
export type TimeLook = {
  readonly day?: string;
  readonly person?: string;
  /** The garment the line is written for. */
  readonly garment?: string;
  readonly form?: FormModel;
  /** What a line that was asked about may mean. */
  readonly choices?: readonly Choice[];
};

/** Time written in one line, and what one person worked on one day. */
export const timePage = async (
  reading: Kept,
  clock: Clock,
  visit: SignedIn,
  look: TimeLook,
): Promise<{ template: string; words: PageWords }> => {
  const { zone } = (await studioBook.the(reading)).identity;
  const today = todayIn(clock, zone);
  const day = look.day && isCalendarDate(look.day) && look.day <= today ? look.day : today;
  const { other, whose, personName } = await whoseWords(reading, visit, look.person);
  const { person } = await personLooking(reading, visit, look.person);
  const entries = person ? await benchBook.ofDay(reading, person.id, day) : [];
  const total = standingEntries(entries).reduce((sum, { minutes }) => sum + minutes, 0);
  const garment = look.garment ? (await garmentHead(reading, visit, look.garment)).words : '';
  const hidden: Record<string, string> = {
    ...(look.garment ? { garment: look.garment } : {}),
    ...(other ? { person: other } : {}),
  };
  const form = { ...(look.form ?? freshForm('')), action: '/bench/time' };
  return {
    template: 'bench/time/time',
    words: {
      title: personName ? `Time of ${personName}` : 'Add time',
      room: 'bench',
      crumbs: [benchCrumb, clockCrumb],
      clock: await clockWords(reading, clock, visit, look.person),
      whose,
      garment,
      form,
      hidden,
      choices: (look.choices ?? []).map(({ words, typed }) => ({
        action: '/bench/time',
        text: words,
        once: form.once,
        values: { ...hidden, line: typed },
      })),
      day: dayInWords(day),
      any: entries.length > 0,
      entries: {
        caption: `${dayInWords(day)}: ${minutesInWords(total)}`,
        columns: [{ text: 'Work' }, { text: 'Garment' }, { text: 'When' }, { text: 'Time', figure: true }],
        rows: entryRows(entries, zone, ({ garmentId, garmentName }) =>
          garmentId
            ? { text: capitalised(garmentName), href: `/bench/garments/${garmentId}` }
            : { text: 'no garment' },
        ),
      },
      pager: daysPager(day, today, other),
      split: forPerson('/bench/split', other),
    },
  };
};

const daysPager = (day: CalendarDate, today: CalendarDate, other: string | undefined) => {
  const link = (on: CalendarDate) => ({
    text: dateInWords(on),
    href: forPerson(`/bench/time?day=${on}`, other),
  });
  return {
    label: 'Days',
    earlier: link(addDays(day, -1)),
    ...(day < today ? { later: link(addDays(day, 1)) } : {}),
  };
};

const A_PAGE = 50;

/** What was worked on one garment, newest first, a page at a time. */
export const garmentEntriesPage = async (
  reading: Kept,
  visit: SignedIn,
  id: string,
  after = '',
): Promise<PageWords> => {
  const { zone } = (await studioBook.the(reading)).identity;
  const { words, garment } = await garmentHead(reading, visit, id);
  const found = await benchBook.newest(reading, A_PAGE + 1, after || undefined, { garmentId: id });
  const entries = found.slice(0, A_PAGE);
  // A reversal of what stands on another page must still be known to have taken it back.
  const back = await benchBook.reversalsOf(
    reading,
    entries.map((entry) => entry.id),
  );
  const all = [...entries, ...back.filter((one) => !entries.some((entry) => entry.id === one.id))];
  const at = `/bench/garments/${id}/entries`;
  return {
    title: `Time on the ${garment.name}`,
    room: 'bench',
    crumbs: [
      benchCrumb,
      clockCrumb,
      { text: `${words.name}, ${words.commission}`, href: `/bench/garments/${id}` },
    ],
    ...words,
    any: entries.length > 0,
    add: `/bench/time?garment=${id}`,
    history: mayGo(visit, 'GET', '/history')
      ? `/history?about=commission/${garment.commissionId}/garment/${id}`
      : '',
    entries: {
      caption: 'Newest first',
      columns: [
        { text: 'Work' },
        { text: 'Day and person' },
        { text: 'When' },
        { text: 'Time', figure: true },
      ],
      rows: entryRows(all, zone, ({ on, personName }) => ({ text: `${dateInWords(on)}, ${personName}` })),
    },
    pager: {
      label: 'Time on this garment',
      ...(after ? { earlier: { text: 'From the newest', href: at } } : {}),
      ...(found.length > A_PAGE
        ? { later: { text: 'Further back', href: `${at}?after=${entries.at(-1)?.id}` } }
        : {}),
    },
  };
};
