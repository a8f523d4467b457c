import type { Simulated } from '../../../domain/estimating/promise/simulate.js';
import { daysBetween } from '../../../domain/kernel/calendar-date.js';
import { MAKE_WORDS, MAKES } from '../../../domain/making/mode.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { KeptType } from '../../../storage/books/making-book.js';
import type { PageWords } from '../../../web/reply.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { type SpanSaid, spanInWords, type WouldMove } from './close-days.js';
import type { Backlog } from './gather-promises.js';
import type { Letter } from './letters.js';
import { moveInWords } from './promise-words.js';
import { garmentCell, type May, PROMISES, promisesCrumbs } from './promises.page.js';
import { RUSH, type RushAnswer } from './rush.js';

/** What was typed into a form that only asks, with what was wrong about it by field. */
export type AskedWords = {
  readonly typed: Readonly<Record<string, string>>;
  readonly troubles: readonly string[];
};

/** The days to be closed, what would move, and the button that keeps it. */
export const awayPage = (
  form: FormModel,
  asked: AskedWords,
  found:
    | {
        readonly said: SpanSaid;
        readonly moves: readonly WouldMove[];
        readonly versions: ReadonlyMap<string, number>;
      }
    | undefined,
  { may }: { readonly may: May },
): { template: string; words: PageWords } => {
  const late = found?.moves.filter(({ isLate }) => isLate) ?? [];
  const others = found?.moves.filter(({ isLate }) => !isLate) ?? [];
  return {
    template: 'bench/promises/away',
    words: {
      title: 'Close the workroom for some days',
      room: 'bench',
      crumbs: promisesCrumbs,
      action: `${PROMISES}/away`,
      typed: { from: '', to: '', words: '', ...asked.typed },
      troubles: asked.troubles,
      anyTrouble: asked.troubles.length > 0,
      found: found !== undefined,
      form: { ...form, action: `${PROMISES}/away` },
      heading: found
        ? `If ${spanInWords(found.said)} ${found.said.from === found.said.to ? 'is' : 'are'} closed`
        : '',
      lead: found
        ? found.moves.length === 0
          ? 'No garment would be ready later at 4 in 5.'
          : `${countInWords(found.moves.length, 'garment')} would be ready later at 4 in 5, ${late.length === 0 ? 'all of them still by their promised day' : `${late.length} of them after the promised day`}.`
        : '',
      anyLate: late.length > 0,
      late: late.map(({ one: { garment, dueOn }, after }) => ({
        move: `move.${garment.id}`,
        date: `date.${garment.id}`,
        seen: `seen.${garment.id}`,
        version: String(found?.versions.get(garment.id) ?? ''),
        label: `${garment.name} for ${garment.wearerName}, ${garment.commissionNumber}: promised for ${dueOn ? dateInWords(dueOn) : 'no day'}, ready at 4 in 5 by ${dateInWords(after)}`,
      })),
      others: others.length > 0 ? movesTable('Ready later, and still in time', others, may) : '',
      leave: { text: 'Leave without closing', href: PROMISES },
    },
  };
};

/** The values with which the promises that cannot be kept stand ticked, at the day they can be kept at 4 in 5. */
export const ticksOf = (moves: readonly WouldMove[]): Record<string, string> =>
  Object.fromEntries(
    moves
      .filter(({ isLate }) => isLate)
      .flatMap(({ one: { garment }, proposed }) => [
        [`move.${garment.id}`, 'yes'],
        [`date.${garment.id}`, proposed],
      ]),
  );

const movesTable = (caption: string, moves: readonly WouldMove[], may: May): object => ({
  caption,
  columns: [{ text: 'Garment' }, { text: 'Promised' }, { text: 'Ready at 4 in 5' }, { text: 'That is' }],
  rows: moves.map(({ one, before, after }) => ({
    cells: [
      garmentCell(one, may),
      { text: one.dueOn ? dateInWords(one.dueOn) : 'no day named' },
      { text: dateInWords(after), note: `now ${dateInWords(before)}` },
      { text: moveInWords(before, after) },
    ],
  })),
});

/** If this rush were taken: when it would be ready, and which promises move. */
export const rushPage = (
  backlog: Backlog,
  types: readonly KeptType[],
  asked: AskedWords,
  answer: RushAnswer | undefined,
  before: Simulated | undefined,
  may: May,
): PageWords => ({
  title: 'If I take this rush',
  room: 'bench',
  crumbs: promisesCrumbs,
  action: `${PROMISES}/rush`,
  typed: { hours: '', ...asked.typed },
  types: types.map(({ id, name }) => ({ value: id, text: name, chosen: id === asked.typed.typeId })),
  makes: MAKES.map((make) => ({
    value: make,
    text: MAKE_WORDS[make],
    chosen: make === (asked.typed.make ?? 'hand-where-it-shows'),
  })),
  places: [
    ...backlog.works.map(({ garment }, place) => ({
      value: garment.id,
      text: `${place === 0 ? 'at once, before' : 'before'} ${garment.name} for ${garment.wearerName}`,
      chosen: garment.id === asked.typed.before,
    })),
    {
      value: 'last',
      text: 'in its turn, after all others',
      chosen: (asked.typed.before ?? 'last') === 'last',
    },
  ],
  troubles: asked.troubles,
  anyTrouble: asked.troubles.length > 0,
  answered: answer !== undefined,
  ...(answer && before
    ? answerWords(backlog, answer, may)
    : { lead: '', dates: '', anyMoved: false, moved: '' }),
});

const answerWords = (backlog: Backlog, answer: RushAnswer, may: May): object => {
  const works = new Map(backlog.works.map((one) => [one.garment.id, one]));
  const waits =
    answer.fittings > 0
      ? ` It waits 7 days for each of ${countInWords(answer.fittings, 'fitting')}; that wait is ours.`
      : '';
  return {
    lead: `Planned at ${minutesInWords(answer.plannedMinutes)}, it could be promised for ${dateInWords(answer.dates.at(RUSH, 0.8))} at 4 in 5.${waits}`,
    dates: {
      caption: 'When it would be ready',
      columns: [{ text: 'With this certainty' }, { text: 'Ready by' }],
      rows: (
        [
          ['even chance', 0.5],
          ['4 in 5', 0.8],
          ['9 in 10', 0.9],
        ] as const
      ).map(([words, q]) => ({ cells: [{ text: words }, { text: dateInWords(answer.dates.at(RUSH, q)) }] })),
    },
    anyMoved: answer.moved.length > 0,
    moved: {
      caption: 'Promises that move, at 4 in 5',
      columns: [{ text: 'Garment' }, { text: 'Promised' }, { text: 'Ready' }, { text: 'That is' }],
      rows: answer.moved.flatMap(({ ref, before, after }) => {
        const one = works.get(ref);
        if (!one) return [];
        const late = one.dueOn && after > one.dueOn ? daysBetween(one.dueOn, after) : 0;
        return [
          {
            cells: [
              garmentCell(one, may),
              { text: one.dueOn ? dateInWords(one.dueOn) : 'no day named' },
              { text: dateInWords(after), note: `now ${dateInWords(before)}` },
              {
                text: moveInWords(before, after),
                note: late > 0 ? `${countInWords(late, 'day')} after the promise` : '',
              },
            ],
          },
        ];
      }),
    },
  };
};

/** Letters that lie ready to be copied or printed. */
export const lettersPage = (
  span: SpanSaid | undefined,
  spanId: string,
  letters: readonly Letter[],
): PageWords => ({
  title: 'Letters about promises that moved',
  room: 'bench',
  crumbs: promisesCrumbs,
  lead: span ? `The workroom is closed: ${spanInWords(span)}.` : '',
  none: letters.length === 0,
  toClients: letters.map(({ client, numbers, text }) => ({
    to: `${client.name}, ${numbers.join(', ')}`,
    box: `letter-${client.id}`,
    reach: [client.email, client.phone].filter(Boolean).join(', '),
    rows: String(text.split('\n').length + 2),
    text,
    pdf: `${PROMISES}/letters/${spanId}/${client.id}.pdf`,
  })),
});
