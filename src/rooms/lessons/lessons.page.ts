import { Decimal } from '../../domain/kernel/decimal.js';
import type { HandPace } from '../../domain/lessons/hand-paces.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import type { TypeLesson } from '../../domain/lessons/type-lesson.js';
import type { FormModel } from '../../printing/templates/page-model.js';
import { gridRows } from '../../web/forms/closed-up.js';
import type { PageWords } from '../../web/reply.js';
import { capitalised, countInWords } from '../../web/words/counts.js';
import { decimalSignOf, numeralText } from '../../web/words/numeral.js';
import {
  driftInWords,
  hoursInWords,
  lessonsCrumb,
  mendingInWords,
  overrunInWords,
  restsInWords,
} from './lesson-words.js';
import type { KnownType, StudioLesson } from './lessons-of.js';
import { pacePicture } from './pace.picture.js';
import { modesTable } from './type/operation-words.js';

const LINES = 20;

export const lessonsPage = (known: readonly KnownType[], studio: StudioLesson, locale: string): PageWords => {
  const any = known.some(({ lesson }) => (lesson?.garments ?? 0) > 0);
  const drawn = pacePicture(studio.paces);
  return {
    title: 'Lessons',
    room: 'lessons',
    any,
    remark: driftInWords(studio.drift, 'garments') ?? '',
    facts: [
      {
        label: 'Known by operation',
        text:
          studio.fromList > 0
            ? `${countInWords(studio.closed, 'closed garment')}, ${countInWords(studio.fromList, 'past garment')} of a list`
            : countInWords(studio.closed, 'closed garment'),
      },
      { label: 'Mending', text: mendingInWords(studio.mending) },
    ],
    paces: studio.paces.length > 0 ? pacesTable(studio.paces, locale) : '',
    pacesDrawn: drawn?.picture ?? null,
    pacesLeft:
      drawn && drawn.left > 0 ? `${capitalised(countInWords(drawn.left, 'more kind'))} in the table.` : '',
    modes: studio.modes.length > 0 ? modesTable(studio.modes) : '',
    hours: {
      caption: 'What a garment takes',
      columns: [
        { text: 'Garment', short: true },
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

const pacesTable = (paces: readonly HandPace[], locale: string): object => {
  const whole = (figure: number): string =>
    numeralText(new Decimal(figure.toFixed(0)), decimalSignOf(locale));
  return {
    caption: 'The pace of the hand',
    columns: [
      { text: 'Stitching' },
      { text: 'Garments', figure: true },
      { text: 'Stitches an hour', figure: true },
      { text: 'Centimetres an hour', figure: true },
    ],
    rows: paces.map(({ name, garments, typical, low80, high80, cmAnHour }) => ({
      cells: [
        { text: capitalised(name) },
        { text: String(garments) },
        { text: whole(typical), note: `${whole(low80)} to ${whole(high80)}` },
        { text: whole(cmAnHour) },
      ],
    })),
  };
};

const lessonCells = (id: string, name: string, lesson: TypeLesson | undefined, locale: string) => {
  const first = { text: capitalised(name), href: `/lessons/garment-types/${id}` };
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
    { text: overrunInWords(lesson.overrun) },
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
    leave: { text: 'Leave without saving', href: `/lessons/garment-types/${past.typeId}` },
    remove: {
      action: `/lessons/totals/${past.id}/remove`,
      text: 'Take it off the list',
      once: form.once,
      values: { version: String(past.version) },
    },
  },
});
