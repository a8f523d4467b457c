import { operationMarks } from '../../../domain/commissions/garment-mark.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading as Kept } from '../../../storage/session.js';
import { gridRows } from '../../../web/forms/closed-up.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import type { SignedIn } from '../../../web/visit.js';
import { minutesForField, minutesInWords } from '../../../web/words/durations.js';
import { benchCrumb, clockCrumb, forPerson, whoseWords } from '../clock/bench.page.js';
import { garmentHead } from '../clock/garment.page.js';
import { whatInWords } from '../work/work-words.js';

/** The making sheet typed back in: every operation with start, stop or minutes. */
export const sheetPage = async (
  reading: Kept,
  clock: Clock,
  visit: SignedIn,
  id: string,
  personId = '',
  form?: FormModel,
): Promise<{ template: string; words: PageWords }> => {
  const { zone } = (await studioBook.the(reading)).identity;
  const { words } = await garmentHead(reading, visit, id);
  const { other, personName } = await whoseWords(reading, visit, personId);
  const { finished, leftOut } = operationMarks(await garmentMarkBook.ofGarment(reading, id));
  const plan = (await planBook.of(reading, id)).filter((one) => !leftOut.has(one.id));
  const done = (one: { id: string }): string => (finished.has(one.id) ? ', finished' : '');
  return {
    template: 'bench/time/sheet',
    words: {
      title: `Making sheet of the ${words.name.toLowerCase()}`,
      room: 'bench',
      crumbs: [
        benchCrumb,
        clockCrumb,
        { text: `${words.name}, ${words.commission}`, href: `/bench/garments/${id}` },
      ],
      ...words,
      hand: personName,
      person: other ?? '',
      form: {
        ...(form ?? freshForm('', { on: todayIn(clock, zone) })),
        action: `/bench/garments/${id}/sheet`,
      },
      planned: plan.length > 0,
      grid: {
        caption: 'Write from when to when, or how long',
        columns: [
          { text: 'Start', figure: true },
          { text: 'Stop', figure: true },
          { text: 'Or how long', figure: true },
        ],
        labelled: 'Operation',
        rows: plan.map((one) => ({
          label: `${one.name}, ${minutesInWords(plannedMinutes(one))}${done(one)}`,
          names: ['start', 'stop', 'minutes'].map((part) => `op.${one.id}.${part}`),
        })),
      },
    },
  };
};

export const SPLIT_PARTS = 6;

/** One sitting over several garments. */
export const splitPage = async (
  reading: Kept,
  clock: Clock,
  visit: SignedIn,
  look: { readonly entry?: string; readonly person?: string; readonly form?: FormModel },
): Promise<{ template: string; words: PageWords }> => {
  const { zone } = (await studioBook.the(reading)).identity;
  const { other, personName } = await whoseWords(reading, visit, look.person);
  const entry = look.entry ? await benchBook.one(reading, look.entry) : undefined;
  const values: Record<string, string> = entry
    ? { total: minutesForField(entry.minutes), on: entry.on }
    : { on: todayIn(clock, zone) };
  return {
    template: 'bench/time/split',
    words: {
      title: 'One sitting over several garments',
      room: 'bench',
      crumbs: [benchCrumb, clockCrumb],
      hand: personName,
      form: { ...(look.form ?? freshForm('', values)), action: '/bench/split' },
      hidden: { ...(entry ? { entry: entry.id } : {}), ...(other ? { person: other } : {}) },
      of: entry ? `${minutesInWords(entry.minutes)} of ${whatInWords(entry)}` : '',
      grid: {
        caption: 'What it was for; a time left empty takes its share of what is left',
        columns: [
          { text: 'Work', wide: true },
          { text: 'How long', figure: true },
        ],
        rows: gridRows('parts', ['what', 'minutes'], 0, SPLIT_PARTS),
      },
      leave: { text: 'Leave it as it is', href: forPerson('/bench/time', other) },
    },
  };
};
