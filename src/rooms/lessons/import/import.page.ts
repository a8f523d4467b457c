import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { Typed } from '../../../web/forms/typed.js';
import type { PageWords } from '../../../web/reply.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { lessonsCrumb } from '../lesson-words.js';
import { type Outcome, outcomeOf } from './bring-garments.js';
import { GARMENT_COLUMNS, likelyColumn, likelyTimeUnit } from './columns.js';
import { type ImportWords, MOST_KINDS, MOST_WORKS } from './import.form.js';
import { OWN_WORK } from './known-work.js';
import type { PlannedGarment, PlannedList } from './plan-rows.js';

export const importUrl = '/lessons/import';
type Drawn = { template: string; words: PageWords };

const MOST_SHOWN = 300;
const crumbs = [lessonsCrumb, { text: 'Bring in the past', href: importUrl }];
const leave = { text: 'Another file', href: importUrl };

/** The first step: a file, or a list pasted. */
export const uploadPage = (form: FormModel): Drawn => ({
  template: 'lessons/import',
  words: {
    title: 'Bring in the past',
    room: 'lessons',
    crumbs: [lessonsCrumb],
    form: { ...form, action: `${importUrl}/columns` },
    leave: { text: 'Leave without adding', href: '/lessons' },
  },
});

export const uploadForm = (): FormModel => freshForm(`${importUrl}/columns`, { headed: 'yes' });

/** What each column is likely to mean, as a form. */
export const columnsForm = (table: TextTable, headed: boolean): FormModel => {
  const taken = new Set<string>();
  const likely = table.heads.map((head) => {
    const column = likelyColumn(head);
    if (column === 'note' || !taken.has(column)) {
      taken.add(column);
      return column;
    }
    return '';
  });
  return freshForm(`${importUrl}/preview`, {
    headed: headed ? 'yes' : 'no',
    ...Object.fromEntries(
      table.heads.flatMap((head, place) => [
        [`to.${place}`, likely[place] ?? ''],
        [`unit.${place}`, likelyTimeUnit(head)],
      ]),
    ),
  });
};

/** The second step: what each column holds. */
export const columnsPage = (table: TextTable, carried: string, form: FormModel): Drawn => ({
  template: 'lessons/import-columns',
  words: {
    title: 'What each column holds',
    room: 'lessons',
    crumbs,
    form: { ...form, action: `${importUrl}/preview` },
    carried,
    headed: form.values.headed ?? '',
    found: `${capitalised(countInWords(table.rows.length, 'row'))} ${table.rows.length === 1 ? 'was' : 'were'} found. Choose what each column holds; a column without a choice is left out.`,
    columns: [
      {
        text: 'Holds',
        wide: true,
        options: Object.entries(GARMENT_COLUMNS).map(([value, text]) => ({ value, text })),
      },
      {
        text: 'Bare numbers are',
        options: [
          { value: 'hours', text: 'hours' },
          { value: 'minutes', text: 'minutes' },
        ],
      },
    ],
    rows: table.heads.map((head, place) => ({
      label: labelOf(head, table, place),
      names: [`to.${place}`, `unit.${place}`],
    })),
    leave,
  },
});

const short = (text: string, most: number): string => {
  const plain = text.replace(/\s+/g, ' ').trim();
  return [...plain].length > most ? `${[...plain].slice(0, most).join('')}…` : plain;
};

const labelOf = (head: string, table: TextTable, place: number): string => {
  const sample = table.rows.map(({ cells }) => cells[place] ?? '').find((cell) => cell.trim() !== '');
  return sample ? `${short(head, 60)}: ${short(sample, 40)}` : short(head, 60);
};

/** What the last step is drawn from. */
export type PreviewOf = {
  readonly planned: PlannedList;
  readonly words: ImportWords;
  readonly types: readonly GarmentType[];
  readonly operations: readonly KnownOperation[];
  readonly carried: string;
  readonly typed: Typed;
  readonly locale: string;
};

/** The last step: what would be added, garment by garment. */
export const previewPage = (of: PreviewOf, form: FormModel): Drawn => {
  const { planned, words, types, operations, carried, typed, locale } = of;
  const told = planned.garments.map((one) => ({ one, outcome: outcomeOf(one, words.twins) }));
  const count = (outcome: Outcome): number => told.filter((row) => row.outcome === outcome).length;
  const first = [...told.filter(needsALook), ...told.filter((row) => !needsALook(row))].slice(0, MOST_SHOWN);
  const unusual = told.filter(({ one, outcome }) => outcome === 'add' && one.isUnusual).length;
  const twins = planned.garments.filter(({ isTwin }) => isTwin).length;
  const kinds = [...words.kinds.map(({ said }) => said), ...planned.unknown];
  const asked = [...new Set(kinds)].slice(0, MOST_KINDS);
  const works = [...new Set([...words.works.map(({ said }) => said), ...planned.unknownWork])].slice(
    0,
    MOST_WORKS,
  );
  const names = new Map(types.map(({ id, name }) => [id, name]));
  return {
    template: 'lessons/import-preview',
    words: {
      title: 'What would be added',
      room: 'lessons',
      crumbs,
      form: {
        ...form,
        action: importUrl,
        values: {
          ...form.values,
          ...Object.fromEntries(
            asked.map((said, place) => [
              `kind.${place}`,
              words.kinds.find((kind) => kind.said === said)?.type ?? '',
            ]),
          ),
          ...Object.fromEntries(
            works.map((said, place) => [
              `means.${place}`,
              words.works.find((work) => work.said === said)?.means ?? '',
            ]),
          ),
        },
      },
      carried,
      fields: Object.entries(typed)
        .filter(([name]) => /^(to|unit)\.\d+$|^headed$/.test(name))
        .map(([name, value]) => ({ name, value })),
      facts: [
        { label: 'Garments to add', text: `${count('add')}`, figure: true },
        { label: 'In trouble', text: `${count('trouble')}`, figure: true },
        { label: 'Written down already', text: `${twins}`, figure: true },
        { label: 'Far off from the others', text: `${unusual}`, figure: true },
      ],
      kinds: asked.map((said, place) => ({ name: `kind.${place}`, saidName: `said.${place}`, said })),
      types: types.filter(({ isMenu }) => !isMenu).map(({ id, name }) => ({ value: id, text: name })),
      works: works.map((said, place) => ({ name: `means.${place}`, saidName: `work.${place}`, said })),
      meanings: works.length > 0 ? meaningsOfWork(operations) : [],
      again: `${importUrl}/preview`,
      rows: {
        caption: 'Garment by garment',
        columns: [
          { text: 'Garment' },
          { text: 'Hours', figure: true },
          { text: 'Planned', figure: true },
          { text: 'Finished on' },
          { text: 'What becomes of it' },
        ],
        rows: first.map(({ one, outcome }) => ({ cells: cellsOf(one, outcome, names, locale) })),
      },
      more: told.length > first.length ? `and ${told.length - first.length} more like these.` : '',
      inTrouble: count('trouble') > 0,
      unusual: unusual > 0,
      anyTwin: twins > 0,
      twins: [
        { value: 'leave', text: 'Leave them out' },
        { value: 'add', text: 'Add them all the same' },
      ],
      leave,
    },
  };
};

/** What a word for an operation may mean: a kind the studio knows, or work of its own. */
const meaningsOfWork = (operations: readonly KnownOperation[]) => {
  const kinds = new Map(operations.filter(({ isMenu }) => !isMenu).map(({ kind, name }) => [kind, name]));
  return [
    ...OWN_WORK.map((value) => ({ value, text: `Work of its own, ${value.slice(4)}` })),
    ...[...kinds].map(([value, text]) => ({ value, text })).sort((a, b) => (a.text < b.text ? -1 : 1)),
  ];
};

const needsALook = ({ one }: { one: PlannedGarment }): boolean =>
  one.troubles.length > 0 || one.isUnusual || one.isTwin;

const OUTCOMES: Readonly<Record<Outcome, string>> = {
  trouble: 'cannot be read',
  leave: 'left out',
  add: 'added',
};

const cellsOf = (
  { line, rows, saidType, words, operations, troubles, isUnusual, isTwin }: PlannedGarment,
  outcome: Outcome,
  names: ReadonlyMap<string, string>,
  locale: string,
) => [
  {
    text: words ? capitalised(names.get(words.typeId) ?? saidType) : short(saidType, 80) || 'no type',
    note: [
      rows > 1 ? `line ${line}, ${rows} rows` : `line ${line}`,
      ...(operations.length > 0 ? [countInWords(operations.length, 'operation')] : []),
    ].join(', '),
  },
  { text: words ? numeralText(words.hours.toDecimalPlaces(2), decimalSignOf(locale)) : '' },
  {
    text: words?.plannedHours
      ? numeralText(words.plannedHours.toDecimalPlaces(2), decimalSignOf(locale))
      : '',
  },
  { text: words?.finishedOn ? dateInWords(words.finishedOn) : '' },
  {
    text: OUTCOMES[outcome],
    note: [
      ...(isTwin ? ['written down already'] : []),
      ...(isUnusual ? ['far off from the others: a slip, or minutes among hours?'] : []),
      ...troubles,
    ]
      .slice(0, 6)
      .join(' · '),
  },
];
