import { type Client, foldForSearch } from '../../../domain/clients/client.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { PreferredUnit } from '../../../domain/measuring/length-unit.js';
import type { MeasuredValue } from '../../../domain/measuring/measurement-set.js';
import type { ClientWords } from '../../../storage/books/client-book.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { readDate } from '../../../web/words/dates.js';
import { ClientFields } from '../client.form.js';
import { CLIENT_COLUMNS, type ClientColumn, type Meaning } from './columns.js';
import type { ImportWords } from './import.form.js';
import { readMeasured } from './read-measured.js';

/** Somebody a row seems to speak of who is there already: in the studio's book, or further up in the same list. */
export type Twin = { readonly id?: string; readonly row?: number; readonly text: string };

/** One row of the list and what would come of it. */
export type PlannedRow = {
  readonly line: number;
  readonly words: ClientWords | undefined;
  readonly shownName: string;
  readonly measured: {
    readonly takenOn: CalendarDate;
    readonly takenBy: string;
    readonly values: MeasuredValue[];
  };
  readonly troubles: readonly string[];
  readonly unusual: readonly string[];
  readonly twin: Twin | undefined;
};

/** What is known when rows are read. */
export type PlanOf = {
  readonly meanings: readonly (Meaning | undefined)[];
  readonly words: Pick<ImportWords, 'takenOn' | 'takenBy'>;
  readonly everybody: readonly Pick<Client, 'id' | 'code' | 'name' | 'email'>[];
  readonly preferred: PreferredUnit;
  readonly today: CalendarDate;
  readonly locale: string;
};

type Fields = Partial<Record<ClientColumn, string>>;

/** Several columns for one field are put together: an address out of lines, a name out of two. */
const fieldsOf = (cells: readonly string[], meanings: PlanOf['meanings']): Fields => {
  const fields: Fields = {};
  for (const [place, meaning] of meanings.entries()) {
    const cell = (cells[place] ?? '').trim();
    if (meaning?.is !== 'field' || cell === '') continue;
    const { field } = meaning;
    const glue = field === 'address' || field === 'notes' ? '\n' : ' ';
    fields[field] = fields[field] === undefined ? cell : `${fields[field]}${glue}${cell}`;
  }
  return fields;
};

const dayOf = (
  typed: string | undefined,
  label: string,
  of: PlanOf,
  troubles: string[],
): string | undefined => {
  const read = readDate(typed ?? '', { today: of.today, locale: of.locale });
  if (read.kind === 'ok') return read.value;
  if (read.kind !== 'empty') troubles.push(`${label}: ${read.sentence}`);
  return undefined;
};

const clientIn = (
  fields: Fields,
  birthDate: string | undefined,
  troubles: string[],
): ClientWords | undefined => {
  const name = [fields.firstName, fields.name].filter(Boolean).join(' ');
  const { firstName: _, takenOn: _on, takenBy: _by, birthDate: _born, ...rest } = fields;
  const read = ClientFields.safeParse({ ...rest, name, ...(birthDate ? { birthDate } : {}) });
  if (read.success) return read.data;
  troubles.push(
    ...read.error.issues.map(
      ({ path, message }) => `${CLIENT_COLUMNS[path[0] as ClientColumn] ?? String(path[0])}: ${message}`,
    ),
  );
  return undefined;
};

const plannedRow = (cells: readonly string[], line: number, of: PlanOf): Omit<PlannedRow, 'twin'> => {
  const troubles: string[] = [];
  const fields = fieldsOf(cells, of.meanings);
  const birthDate = dayOf(fields.birthDate, 'Date of birth', of, troubles);
  const takenOn = dayOf(fields.takenOn, 'Measured on', of, troubles) ?? of.words.takenOn ?? of.today;
  const words = clientIn(fields, birthDate, troubles);
  const read = readMeasured(cells, of, { birthDate, takenOn });
  const takenBy = (fields.takenBy ?? of.words.takenBy).slice(0, 200);
  if (read.values.length > 0) {
    if (takenBy === '') troubles.push('Measured by: say who measured, for the whole list.');
    if (takenOn > of.today) troubles.push('Measured on: this day is still to come.');
    if (read.isChild && !fields.guardian)
      troubles.push('Guardian: name who was present; a child is never measured alone.');
  }
  return {
    line,
    words,
    shownName: words?.name ?? fields.name ?? fields.email ?? '',
    measured: { takenOn, takenBy, values: read.values },
    troubles: [...troubles, ...read.troubles],
    unusual: read.unusual,
  };
};

/** Reads every row of a list, and notices who is there already: by the same name, folded, or the same email address. */
export const planRows = (table: TextTable, of: PlanOf): PlannedRow[] => {
  const seen = new Map<string, Twin>();
  const keysOf = (who: { name: string; email: string }): string[] =>
    [`name ${foldForSearch(who.name)}`, who.email && `email ${who.email.toLowerCase()}`].filter(Boolean);
  for (const one of of.everybody)
    for (const key of keysOf(one))
      seen.set(key, { id: one.id, text: `${one.name}, ${one.code}, is there already` });
  return table.rows.map(({ line, cells }, row) => {
    const planned = plannedRow(cells, line, of);
    if (!planned.words) return { ...planned, twin: undefined };
    const keys = keysOf(planned.words);
    const twin = keys.map((key) => seen.get(key)).find((found) => found !== undefined);
    for (const key of keys)
      if (!seen.has(key)) seen.set(key, twin ?? { row, text: `the same as line ${line}` });
    return { ...planned, twin };
  });
};
