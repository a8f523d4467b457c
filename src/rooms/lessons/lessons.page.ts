import { Decimal } from '../../domain/kernel/decimal.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import type { TypeLesson } from '../../domain/lessons/type-lesson.js';
import type { FormModel, Link } from '../../printing/templates/page-model.js';
import { gridRows } from '../../web/forms/closed-up.js';
import type { PageWords } from '../../web/reply.js';
import { capitalised, countInWords } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';
import { decimalSignOf, numeralText } from '../../web/words/numeral.js';
import { shareInWords } from '../../web/words/shares.js';
import type { KnownType } from './lessons-of.js';

export const lessonsCrumb: Link = { text: 'Lessons', href: '/lessons' };
const LINES = 20;

/** Hours as they are worth saying: whole above ten, one decimal below. */
const hoursInWords = (hours: number | Decimal, locale: string): string => {
  const value = new Decimal(hours);
  return `${numeralText(value.toDecimalPlaces(value.lt(10) ? 1 : 0), decimalSignOf(locale))} h`;
};

/** What a lesson rests on: `4 garments and your own guess of 50 h (ours)`. */
export const restsInWords = ({ garments, belief }: TypeLesson, locale: string): string => {
  const own = countInWords(garments, 'garment');
  if (!belief) return own;
  const guess = hoursInWords(belief.hours, locale);
  return belief.from === 'ours'
    ? `${own} and your own guess of ${guess} (ours)`
    : `${own} and a starting plan of ${guess} (starting value)`;
};

/** How far plans are usually overrun: `26 % over, from 5`. */
const overrunInWords = ({ overrun }: TypeLesson): string => {
  if (!overrun) return '';
  const beyond = overrun.ratio.minus(1);
  const size = shareInWords(beyond.abs());
  const side = beyond.isNegative() ? 'under' : 'over';
  return `${beyond.abs().lt('0.005') ? 'as planned' : `${size} ${side}`}, from ${overrun.garments}`;
};

export const lessonsPage = (known: readonly KnownType[], locale: string): PageWords => {
  const any = known.some(({ lesson }) => (lesson?.garments ?? 0) > 0);
  return {
    title: 'Lessons',
    room: 'lessons',
    any,
    hours: {
      caption: 'What a garment takes',
      columns: [
        { text: 'Garment' },
        { text: 'Garments known', figure: true },
        { text: 'A typical one', figure: true },
        { text: 'The next one, even', figure: true },
        { text: '4\u00a0in\u00a05', figure: true },
        { text: '9\u00a0in\u00a010', figure: true },
        { text: 'Against the plan' },
        { text: 'Rests on' },
      ],
      rows: known.map(({ type, lesson }) => ({ cells: lessonCells(type.id, type.name, lesson, locale) })),
    },
  };
};

const lessonCells = (id: string, name: string, lesson: TypeLesson | undefined, locale: string) => {
  const first = { text: capitalised(name), href: `/lessons/types/${id}` };
  if (!lesson) return [first, ...Array.from({ length: 6 }, () => ({ text: '' })), { text: 'nothing yet' }];
  const { typical, next } = lesson.hours;
  return [
    first,
    { text: String(lesson.garments) },
    {
      text: hoursInWords(typical.middle, locale),
      note: `${hoursInWords(typical.low80, locale)} to ${hoursInWords(typical.high80, locale)}`,
    },
    ...([next['0.5'], next['0.8'], next['0.9']] as const).map((hours) => ({
      text: hoursInWords(hours, locale),
    })),
    { text: overrunInWords(lesson) },
    { text: restsInWords(lesson, locale) },
  ];
};

/** The grid for totals out of a notebook. */
export const totalsFormPage = (
  form: FormModel,
  types: readonly KnownType[],
): { template: string; words: PageWords } => {
  const filled = Object.keys(form.values).filter((name) => /^totals\.\d+\.type$/.test(name)).length;
  return {
    template: 'lessons/totals',
    words: {
      title: 'Totals from a notebook',
      room: 'lessons',
      crumbs: [lessonsCrumb],
      form: { ...form, action: '/lessons/totals' },
      leave: { text: 'Leave without saving', href: '/lessons' },
      grid: {
        caption: 'Past garments, one to a line',
        columns: [
          { text: 'Garment type', options: typeOptions(types) },
          { text: 'Hours', figure: true },
          { text: 'Planned hours', figure: true },
          { text: 'Finished on' },
          { text: 'Note', wide: true },
        ],
        rows: gridRows(
          'totals',
          ['type', 'hours', 'planned', 'finished', 'note'],
          Math.max(filled, LINES),
          filled < LINES ? 0 : 5,
        ),
      },
    },
  };
};

const typeOptions = (types: readonly KnownType[]) =>
  [...types]
    .sort((a, b) => a.type.name.localeCompare(b.type.name))
    .map(({ type }) => ({ value: type.id, text: type.name }));

/** What one type takes, in one sentence, and the garments it rests on. */
export const typePage = (
  { type, lesson }: KnownType,
  past: readonly PastGarment[],
  locale: string,
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'lessons/type',
  words: {
    title: capitalised(type.plural),
    room: 'lessons',
    crumbs: [lessonsCrumb],
    form: { ...form, action: `/lessons/types/${type.id}` },
    sentence: lesson ? sentenceOf(type.name, lesson, locale) : `Nothing is known of ${type.plural} yet.`,
    facts: lesson
      ? [
          { label: 'Rests on', text: restsInWords(lesson, locale) },
          ...(lesson.overrun ? [{ label: 'Against the plan', text: overrunInWords(lesson) }] : []),
        ]
      : [],
    garments:
      past.length > 0
        ? {
            caption: 'Garments written down',
            columns: [
              { text: 'Finished on' },
              { text: 'Hours', figure: true },
              { text: 'Planned', figure: true },
              { text: 'Note' },
            ],
            rows: past.map((one) => ({
              cells: [
                {
                  text: one.finishedOn ? dateInWords(one.finishedOn) : 'no date',
                  href: `/lessons/totals/${one.id}`,
                },
                { text: numeralText(one.hours.toDecimalPlaces(2), decimalSignOf(locale)) },
                {
                  text: one.plannedHours
                    ? numeralText(one.plannedHours.toDecimalPlaces(2), decimalSignOf(locale))
                    : '',
                },
                { text: one.note },
              ],
            })),
          }
        : '',
  },
});

const sentenceOf = (name: string, { hours, garments }: TypeLesson, locale: string): string => {
  const of = (value: number): string => hoursInWords(value, locale);
  const { typical, next } = hours;
  return `A typical ${name} takes ${of(typical.middle)}${garments > 0 ? `, most likely between ${of(typical.low80)} and ${of(typical.high80)}` : ''}. The next one takes no longer than ${of(next['0.5'])} with an even chance, ${of(next['0.8'])} 4 times in 5, and ${of(next['0.9'])} 9 times in 10.`;
};

/** The form of one garment written down. */
export const totalFormPage = (
  form: FormModel,
  types: readonly KnownType[],
  past: PastGarment,
): { template: string; words: PageWords } => ({
  template: 'lessons/total',
  words: {
    title: 'Correct a past garment',
    room: 'lessons',
    crumbs: [lessonsCrumb],
    form: { ...form, action: `/lessons/totals/${past.id}` },
    types: typeOptions(types),
    leave: { text: 'Leave without saving', href: `/lessons/types/${past.typeId}` },
    remove: {
      action: `/lessons/totals/${past.id}/remove`,
      text: 'Take it off the list',
      once: form.once,
      values: { version: String(past.version) },
    },
  },
});
