import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { Typed } from '../../../web/forms/typed.js';
import type { PageWords } from '../../../web/reply.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clientsCrumb } from '../client.page.js';
import { outcomeOf } from './bring-clients.js';
import { CLIENT_COLUMNS, likelyMeaning, likelyUnit } from './columns.js';
import type { ImportWords } from './import.form.js';
import type { PlannedRow } from './plan-rows.js';

export const importUrl = '/clients/import';
type Drawn = { template: string; words: PageWords };

const MOST_SHOWN = 300;
const UNITS = [
  { value: 'cm', text: 'centimetres' },
  { value: 'in', text: 'inches' },
  { value: 'mm', text: 'millimetres' },
];

/** The first step: a file, or a list pasted. */
export const uploadPage = (form: FormModel): Drawn => ({
  template: 'clients/import',
  words: {
    title: 'Bring in clients from a list',
    room: 'clients',
    crumbs: [clientsCrumb],
    form: { ...form, action: `${importUrl}/columns` },
    leave: { text: 'Leave without adding', href: '/clients' },
  },
});

export const uploadForm = (): FormModel => freshForm(`${importUrl}/columns`, { headed: 'yes' });

/** What each column is likely to mean, as a form. */
export const columnsForm = (
  table: TextTable,
  known: readonly BodyDimension[],
  house: { unit: string; today: string; hand: string; headed: boolean },
): FormModel =>
  freshForm(`${importUrl}/preview`, {
    headed: house.headed ? 'yes' : 'no',
    takenOn: house.today,
    takenBy: house.hand,
    ...Object.fromEntries(
      table.heads.flatMap((head, place) => [
        [`to.${place}`, likelyMeaning(head, known)],
        [`unit.${place}`, likelyUnit(head, house.unit)],
      ]),
    ),
  });

/** The second step: what each column holds. */
export const columnsPage = (
  table: TextTable,
  known: readonly BodyDimension[],
  carried: string,
  form: FormModel,
): Drawn => ({
  template: 'clients/import-columns',
  words: {
    title: 'What each column holds',
    room: 'clients',
    crumbs: [clientsCrumb, { text: 'Bring in clients', href: importUrl }],
    form: { ...form, action: `${importUrl}/preview` },
    carried,
    headed: form.values.headed ?? '',
    found: `${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'} were found. Choose what each column holds; a column without a choice is left out.`,
    columns: [
      {
        text: 'Holds',
        wide: true,
        options: [
          ...Object.entries(CLIENT_COLUMNS).map(([value, text]) => ({ value, text })),
          ...known.map(({ id, tradeWord, name }) => ({
            value: `d.${id}`,
            text: `Measurement: ${tradeWord || name}`,
          })),
        ],
      },
      { text: 'Unit, if a measurement', options: UNITS },
    ],
    rows: table.heads.map((head, place) => ({
      label: labelOf(head, table, place),
      names: [`to.${place}`, `unit.${place}`],
    })),
    leave: { text: 'Another file', href: importUrl },
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

/** The last step: what would be added, row by row. */
export const previewPage = (
  rows: readonly PlannedRow[],
  words: ImportWords,
  carried: string,
  typed: Typed,
  form: FormModel,
): Drawn => {
  const told = rows.map((row) => ({ row, outcome: outcomeOf(row, words.twins) }));
  const count = (outcome: string): number => told.filter((one) => one.outcome === outcome).length;
  const first = [...told.filter(needsALook), ...told.filter((one) => !needsALook(one))].slice(0, MOST_SHOWN);
  const fields = Object.entries(typed).filter(([name]) =>
    /^(to|unit)\.\d+$|^(headed|takenOn|takenBy)$/.test(name),
  );
  const unusual = told.filter(({ row, outcome }) => outcome !== 'trouble' && row.unusual.length > 0).length;
  const twins = rows.filter(({ twin }) => twin !== undefined).length;
  return {
    template: 'clients/import-preview',
    words: {
      title: 'What would be added',
      room: 'clients',
      crumbs: [clientsCrumb, { text: 'Bring in clients', href: importUrl }],
      form: { ...form, action: importUrl },
      carried,
      fields: fields.map(([name, value]) => ({ name, value })),
      facts: [
        { label: 'New clients', text: `${count('add')}`, figure: true },
        { label: 'Rows in trouble', text: `${count('trouble')}`, figure: true },
        { label: 'There already', text: `${twins}`, figure: true },
        { label: 'With something unusual', text: `${unusual}`, figure: true },
      ],
      rows: {
        caption: 'Row by row',
        columns: [
          { text: 'Name' },
          { text: 'Reached at' },
          { text: 'Measurements' },
          { text: 'What becomes of it' },
        ],
        rows: first.map(({ row, outcome }) => ({ cells: cellsOf(row, outcome) })),
      },
      more: told.length > first.length ? `and ${told.length - first.length} more rows like these.` : '',
      inTrouble: count('trouble') > 0,
      unusual: unusual > 0,
      anyTwin: twins > 0,
      twins: [
        { value: 'leave', text: 'Leave them out' },
        { value: 'measure', text: 'Add only their measurements, as a new set' },
        { value: 'add', text: 'Add them as new clients all the same' },
      ],
      leave: { text: 'Another file', href: importUrl },
    },
  };
};

const needsALook = ({ row }: { row: PlannedRow }): boolean =>
  row.troubles.length > 0 || row.unusual.length > 0 || row.twin !== undefined;

const OUTCOMES = {
  trouble: 'cannot be read',
  leave: 'left out',
  measure: 'measurements added',
  add: 'added',
};

const cellsOf = (row: PlannedRow, outcome: keyof typeof OUTCOMES) => [
  { text: short(row.shownName, 80) || 'no name', note: `line ${row.line}` },
  { text: short([row.words?.phone, row.words?.email].filter(Boolean).join(', '), 80) },
  {
    text: short(row.measured.values.map(({ entry }) => entry.shown).join(', '), 60),
    note: row.measured.values.length > 0 ? `taken ${dateInWords(row.measured.takenOn)}` : '',
  },
  {
    text: OUTCOMES[outcome],
    note: [...(row.twin ? [row.twin.text] : []), ...row.troubles, ...row.unusual].slice(0, 6).join(' · '),
  },
];
