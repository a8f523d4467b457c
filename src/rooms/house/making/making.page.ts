import { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import {
  DRIVER_WORDS,
  DRIVERS,
  MODE_WORDS,
  MODES,
  STAGE_WORDS,
  STAGES,
} from '../../../domain/making/mode.js';
import { planMinutes } from '../../../domain/making/plan-minutes.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import type { FormModel, Link } from '../../../printing/templates/page-model.js';
import type { KeptOperation, KeptType } from '../../../storage/books/making-book.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { houseCrumb } from '../house.page.js';

type Drawn = { template: string; words: PageWords };
const makingCrumb: Link = { text: 'Garment types', href: '/house/making' };
export const typeUrl = (id: string): string => `/house/making/${id}`;
const crumbsOf = (type: KeptType): Link[] => [
  houseCrumb,
  makingCrumb,
  { text: capitalised(type.name), href: typeUrl(type.id) },
];

/** Every type with what a plan of it begins with. */
export const typesPage = (types: readonly KeptType[], operations: readonly KeptOperation[]): PageWords => ({
  title: 'Garment types and operations',
  room: 'house',
  crumbs: [houseCrumb],
  types: {
    caption: 'What the studio makes',
    quietCaption: true,
    columns: [
      { text: 'Garment type' },
      { text: 'Operations', figure: true },
      { text: 'A plan begins with', figure: true },
      { text: 'Measured', figure: true },
    ],
    rows: types.map((type) => {
      const own = operations.filter(({ garmentType }) => garmentType === type.id);
      const { minutes } = planMinutes(startingPlan(type, 'hand-where-it-shows', own, () => type.id).plan);
      return {
        cells: [
          { text: capitalised(type.name), href: typeUrl(type.id) },
          { text: String(own.length) },
          { text: type.isMenu ? 'a price list' : minutes > 0 ? minutesInWords(minutes) : '' },
          { text: String(type.measuringList.length) },
        ],
      };
    }),
  },
});

export const typeFormPage = (form: FormModel, type?: KeptType): Drawn => ({
  template: 'house/making/type-edit',
  words: {
    title: type ? `Rename ${type.plural}` : 'A garment type of your own',
    room: 'house',
    crumbs: type ? crumbsOf(type) : [houseCrumb, makingCrumb],
    form: { ...form, action: type ? `${typeUrl(type.id)}/name` : '/house/making/new' },
    leave: { text: 'Leave without saving', href: type ? typeUrl(type.id) : '/house/making' },
  },
});

const timeInWords = (known: KnownOperation): string => {
  const parts = [
    known.fixedMinutes.gt(0) ? minutesInWords(wholeMinutes(known.fixedMinutes)) : '',
    known.minutesPerUnit.gt(0)
      ? `${known.minutesPerUnit.toDecimalPlaces(3).toFixed()} min ${known.driver === 'each' ? 'each' : `a ${DRIVER_WORDS[known.driver]}`}`
      : '',
  ].filter((part) => part !== '');
  return known.needsMinutes ? 'asked each time' : parts.join(' + ');
};

/** One type: its operations by stage, each with where its time comes from. */
export const typePage = (
  type: KeptType,
  operations: readonly KeptOperation[],
  dimensions: readonly BodyDimension[],
): PageWords => {
  const names = new Map(dimensions.map(({ id, tradeWord, name }) => [id, tradeWord || name]));
  const byStage = STAGES.flatMap((stage) => {
    const here = operations.filter((one) => one.stage === stage);
    return here.length === 0 ? [] : [{ heading: STAGE_WORDS[stage] }, ...here.map(rowOf)];
  });
  return {
    title: capitalised(type.name),
    room: 'house',
    crumbs: [houseCrumb, makingCrumb],
    id: type.id,
    isMenu: type.isMenu,
    measured: type.measuringList.map((id) => names.get(id) ?? id).join(', ') || 'nothing yet',
    any: operations.length > 0,
    operations: {
      caption: countInWords(operations.length, 'operation'),
      columns: [
        { text: 'Operation' },
        { text: 'How' },
        { text: 'Time', figure: true },
        { text: 'Usually', figure: true },
        { text: 'Where from' },
      ],
      rows: byStage,
    },
  };
};

const rowOf = (known: KeptOperation) => ({
  cells: [
    {
      text: known.name,
      href: `/house/making/${known.garmentType}/operations/${known.id}`,
      note: [known.basting ? 'basting' : '', known.isAlternative ? 'only where chosen' : '']
        .filter((word) => word !== '')
        .join(', '),
    },
    { text: MODE_WORDS[known.mode] },
    { text: timeInWords(known) },
    { text: known.driver === 'once' ? '' : `${known.typicalCount.toFixed()} ${DRIVER_WORDS[known.driver]}` },
    known.fromStartingValues ? { text: 'starting value', note: known.source } : { text: 'ours' },
  ],
});

export const operationFormPage = (form: FormModel, type: KeptType, known?: KeptOperation): Drawn => ({
  template: 'house/making/operation-edit',
  words: {
    title: known ? `Change “${known.name}”` : `An operation of your own`,
    room: 'house',
    crumbs: crumbsOf(type),
    form: { ...form, action: `${typeUrl(type.id)}/operations/${known?.id ?? 'new'}` },
    leave: { text: 'Leave without saving', href: typeUrl(type.id) },
    from: known ? (known.fromStartingValues ? `Starting value; ${known.source}.` : 'Ours.') : '',
    stages: STAGES.map((value) => ({ value, text: STAGE_WORDS[value] })),
    modes: MODES.map((value) => ({ value, text: MODE_WORDS[value] })),
    drivers: DRIVERS.map((value) => ({ value, text: DRIVER_WORDS[value] })),
    remove: known
      ? {
          action: `${typeUrl(type.id)}/operations/${known.id}/remove`,
          text: 'Take it off the list',
          once: form.once,
          values: { version: String(known.version) },
        }
      : '',
  },
});

export const newOperation = (): Record<string, string> => ({
  driver: 'once',
  typicalCount: '1',
  mode: 'hand',
  stage: 'make',
});

/** The measuring list of a type: every dimension with its place in the order, those in the list first. */
export const measuresFormPage = (
  form: FormModel,
  type: KeptType,
  dimensions: readonly BodyDimension[],
): Drawn => {
  const placeOf = ({ id }: BodyDimension): number => {
    const place = type.measuringList.indexOf(id);
    return place < 0 ? dimensions.length : place;
  };
  return {
    template: 'house/making/measures',
    words: {
      title: `What is measured for ${type.plural}`,
      room: 'house',
      crumbs: crumbsOf(type),
      form: { ...form, action: `${typeUrl(type.id)}/measures` },
      leave: { text: 'Leave without saving', href: typeUrl(type.id) },
      grid: {
        caption: 'The order in which the tape goes',
        labelled: 'Measurement',
        columns: [{ text: 'Place in the order', figure: true }],
        rows: [...dimensions]
          .sort((a, b) => placeOf(a) - placeOf(b))
          .map(({ id, name, tradeWord }) => ({
            label:
              tradeWord && tradeWord !== name ? `${capitalised(name)} (${tradeWord})` : capitalised(name),
            names: [`place.${id}`],
          })),
      },
    },
  };
};

/** A measuring list as the form's places: 10, 20, 30, so that one can be put between. */
export const typedPlaces = (list: readonly string[]): Record<string, string> =>
  Object.fromEntries(list.map((id, place) => [`place.${id}`, new Decimal(place + 1).times(10).toFixed()]));
