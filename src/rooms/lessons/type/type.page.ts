import { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { MadeGarment } from '../../../domain/lessons/made-garments.js';
import type { TypeLesson } from '../../../domain/lessons/type-lesson.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { shareInWords } from '../../../web/words/shares.js';
import {
  driftInWords,
  hoursInWords,
  kindInWords,
  lessonsCrumb,
  mendingInWords,
  overrunInWords,
  ratioInWords,
  repeatsInWords,
  restsInWords,
} from '../lesson-words.js';
import { dotsPicture } from './dots.picture.js';
import { modesTable, multiplications, operationsTable } from './operation-words.js';
import type { TypeTold } from './type-told.js';

const MOST_SHOWN = 100;
const WORTH_SAYING = 5;

/** What one type takes, in one sentence, and everything it rests on. */
export const typePage = (told: TypeTold, form: FormModel): { template: string; words: PageWords } => {
  const { type, lesson, locale, names } = told;
  const made = lesson?.made ?? [];
  const drawn = lesson && made.length > 0 ? drawnOf(lesson) : undefined;
  return {
    template: 'lessons/type',
    words: {
      title: capitalised(type.plural),
      room: 'lessons',
      crumbs: [lessonsCrumb],
      form: { ...form, action: `/lessons/garment-types/${type.id}` },
      sentence: lesson ? sentenceOf(type.name, lesson, locale) : `Nothing is known of ${type.plural} yet.`,
      remarks: [
        driftInWords(told.drift, type.plural),
        told.repeats && repeatsInWords(told.repeats),
        made.some(({ isFarOff }) => isFarOff)
          ? 'An empty dot is so far from the others that they do not follow it. Is it a slip of the pen?'
          : undefined,
      ].filter((remark) => remark !== undefined),
      facts: factsOf(told),
      picture: drawn?.picture ?? null,
      pictureSaid: drawn && drawn.perDot > 1 ? `Each dot stands for up to ${drawn.perDot} garments.` : '',
      garments: made.length > 0 ? garmentsTable(made, locale) : '',
      more: made.length > MOST_SHOWN ? `and ${made.length - MOST_SHOWN} earlier ones.` : '',
      operations: told.operations.length > 0 ? operationsTable(told.operations) : '',
      modes: told.modes.length > 0 ? modesTable(told.modes) : '',
      forgotten: told.leftOut.notPlanned
        .slice(0, WORTH_SAYING)
        .map((one) => forgottenInWords(one, kindInWords(names, one.kind), type)),
      inVain: told.leftOut.notDone
        .slice(0, WORTH_SAYING)
        .map(
          ({ kind, times, of }) =>
            `${kindInWords(names, kind)}, ${times} of ${countInWords(of, type.name, type.plural)}.`,
        ),
      timeNext: timeNextTold(told),
      usual: told.usual.length > 0 ? multiplications(told.usual, names, type.plural, locale) : '',
    },
  };
};

const drawnOf = ({ made, hours: { next } }: TypeLesson) =>
  dotsPicture({
    garments: made.map(({ hours, isFarOff }) => ({ hours: hours.toNumber(), isFarOff })),
    even: next['0.5'],
    fourInFive: next['0.8'],
    nineInTen: next['0.9'],
  });

const sentenceOf = (name: string, { hours, garments }: TypeLesson, locale: string): string => {
  const of = (value: number): string => hoursInWords(value, locale);
  const { typical, next } = hours;
  return `A typical ${name} takes ${of(typical.middle)}${garments > 0 ? `, most likely between ${of(typical.low80)} and ${of(typical.high80)}` : ''}. The next one takes no longer than ${of(next['0.5'])} with an even chance, ${of(next['0.8'])} 4 times in 5, and ${of(next['0.9'])} 9 times in 10.`;
};

const factsOf = ({ lesson, mending, earned, locale }: TypeTold) => [
  ...(lesson
    ? [
        {
          label: 'Rests on',
          text: restsInWords(lesson, locale),
          note: lesson.closed > 0 ? `${lesson.closed} of them known by operation` : '',
        },
      ]
    : []),
  ...(lesson?.overrun ? [{ label: 'Against the plan', text: overrunInWords(lesson.overrun) }] : []),
  { label: 'Mending', text: mendingInWords(mending) },
  ...(earned
    ? [
        {
          label: 'An hour earned',
          text: moneyInWords(earned.perHour, locale),
          note: `from ${countInWords(earned.garments, 'garment')}, ${hoursInWords(earned.minutes.div(60), locale)} together`,
        },
      ]
    : []),
];

const garmentsTable = (made: readonly MadeGarment[], locale: string) => {
  const hours = (value: Decimal): string => numeralText(value.toDecimalPlaces(2), decimalSignOf(locale));
  return {
    caption: 'Every one of them, newest first',
    columns: [
      { text: 'Finished on' },
      { text: 'Hours', figure: true },
      { text: 'Planned', figure: true },
      { text: 'Against the plan' },
      { text: 'Known from' },
    ],
    rows: made
      .slice(-MOST_SHOWN)
      .reverse()
      .map((one) => ({
        cells: [
          {
            text: one.on ? dateInWords(one.on) : 'no date',
            href:
              one.from === 'closed'
                ? `/commissions/${one.commissionId}/garments/${one.id}/reckoning`
                : `/lessons/totals/${one.id}`,
          },
          { text: hours(one.hours), note: one.isFarOff ? 'far off from the others' : '' },
          { text: one.plannedHours ? hours(one.plannedHours) : '' },
          { text: one.plannedHours ? ratioInWords(one.hours.div(one.plannedHours)) : '' },
          { text: one.from === 'closed' ? one.name : one.name ? `notebook: ${one.name}` : 'notebook' },
        ],
      })),
  };
};

const forgottenInWords = (
  { times, of, minutes }: { times: number; of: number; minutes: number },
  name: string,
  type: { name: string; plural: string },
): string =>
  `${name}, ${times} of ${countInWords(of, type.name, type.plural)}, about ${minutesInWords(wholeMinutes(new Decimal(minutes.toFixed(3))))}.`;

const timeNextTold = ({ worthTiming, names }: TypeTold): { sentence: string; table: object } | null => {
  const [first] = worthTiming;
  if (!first || first.share === 0) return null;
  return {
    sentence: `Time ${kindInWords(names, first.kind).toLowerCase()} next: of all the usual plan, its records would narrow the price most.`,
    table: {
      caption: 'Where thin history leaves most doubt',
      columns: [
        { text: 'Operation' },
        { text: 'Share of that doubt', figure: true },
        { text: 'Times known', figure: true },
      ],
      rows: worthTiming.slice(0, WORTH_SAYING).map(({ kind, share, rows }) => ({
        cells: [
          { text: kindInWords(names, kind) },
          { text: shareInWords(new Decimal(share.toFixed(4))) },
          { text: String(rows) },
        ],
      })),
    },
  };
};
