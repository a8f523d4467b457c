import { Invalid } from '../../../domain/kernel/errors.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { type KeptSet, measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading, Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { readTable } from '../../../web/tables/read-table.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { meaningsOf } from './columns.js';
import { CLIENT_LIST, type ImportWords } from './import.form.js';
import { type PlannedRow, planRows } from './plan-rows.js';
import { isContacts, readContacts } from './read-contacts.js';

/** A list as a table of texts: contacts, or columns with a separator. */
export const tableOf = (text: string, headed: boolean): TextTable =>
  isContacts(text) ? readContacts(text) : readTable(text, headed, CLIENT_LIST);

/** What a row comes to. */
export type Outcome = 'trouble' | 'leave' | 'measure' | 'add';

export const outcomeOf = (row: PlannedRow, twins: ImportWords['twins']): Outcome => {
  if (!row.words || row.troubles.length > 0) return 'trouble';
  if (!row.twin || twins === 'add') return 'add';
  return twins === 'measure' && row.measured.values.length > 0 ? 'measure' : 'leave';
};

/** Reads a list as it would be brought in now; nothing is kept. @throws Invalid */
export const planImport = async (
  reading: Reading,
  clock: Clock,
  text: string,
  words: ImportWords,
): Promise<PlannedRow[]> => {
  const { identity } = await studioBook.the(reading);
  const meanings = meaningsOf(words.columns, await dimensionBook.all(reading));
  if (!meanings.some((meaning) => meaning?.is === 'field' && meaning.field === 'name'))
    throw Invalid.field('to.0', 'Say which column holds the name.');
  return planRows(tableOf(text, words.headed), {
    meanings,
    words,
    everybody: await clientBook.everybody(reading),
    preferred: identity.lengthUnit,
    today: todayIn(clock, identity.zone),
    locale: identity.locale,
  });
};

/** How many were brought in. */
export type Brought = { readonly clients: number; readonly sets: number; readonly leftOut: number };

/**
 * Brings a list in, all of it or nothing, as one act that can be undone.
 *
 * @throws Invalid when rows are in trouble or unusual and nobody said what becomes of them
 */
export const bringClients = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  text: string,
  words: ImportWords,
): Promise<Done<Brought>> =>
  unit.write(visit, async (writing) => {
    const rows = await planImport(writing, clock, text, words);
    mustBeDecided(rows, words);
    const brought = await keepRows(writing, rows, words);
    if (brought.clients + brought.sets === 0)
      throw Invalid.field('twins', 'Nothing of this list would be added. Choose otherwise, or leave it.');
    writing.says(`Brought in ${inWords(brought)} from a list`, 'clients');
    return brought;
  });

const mustBeDecided = (rows: readonly PlannedRow[], words: ImportWords): void => {
  const inTrouble = rows.filter((row) => outcomeOf(row, words.twins) === 'trouble').length;
  if (inTrouble > 0 && !words.leaveTroubles)
    throw Invalid.field('leaveTroubles', `Nothing was added: ${inTrouble} of the rows cannot be read.`);
  const unusual = rows.some((row) => {
    const outcome = outcomeOf(row, words.twins);
    return row.unusual.length > 0 && (outcome === 'add' || outcome === 'measure');
  });
  if (unusual && !words.keepUnusual)
    throw Invalid.field('keepUnusual', 'Nothing was added: some measurements look like a slip.');
};

const keepRows = async (
  writing: Writing,
  rows: readonly PlannedRow[],
  words: ImportWords,
): Promise<Brought> => {
  const outcomes = rows.map((row) => outcomeOf(row, words.twins));
  const fresh = rows.flatMap((row, place) =>
    row.words && outcomes[place] === 'add' ? [{ place, words: row.words }] : [],
  );
  const added = await clientBook.addAll(
    writing,
    fresh.map((one) => one.words),
  );
  const ids = new Map(added.map(({ id }, place) => [fresh[place]?.place ?? -1, id]));
  const ownerOf = (row: PlannedRow, place: number): string | undefined =>
    outcomes[place] === 'measure' ? (row.twin?.id ?? ids.get(row.twin?.row ?? -1)) : ids.get(place);
  const sets = rows.flatMap((row, place) => {
    const wearer = ownerOf(row, place);
    return wearer !== undefined && row.measured.values.length > 0
      ? [setOf(writing.newId(), wearer, row)]
      : [];
  });
  await measurementBook.addAll(writing, sets);
  const leftOut = rows.filter((row, place) => ownerOf(row, place) === undefined).length;
  return { clients: added.length, sets: sets.length, leftOut };
};

const setOf = (id: string, wearer: string, { measured, words }: PlannedRow): KeptSet => ({
  id,
  wearer,
  ...measured,
  over: '',
  figuration: '',
  guardian: words?.guardian ?? '',
  garmentType: '',
  insteadOf: undefined,
});

const inWords = ({ clients, sets }: Brought): string =>
  [
    clients > 0 && `${clients} ${clients === 1 ? 'client' : 'clients'}`,
    sets > 0 && `${sets} ${sets === 1 ? 'set' : 'sets'} of measurements`,
  ]
    .filter(Boolean)
    .join(' and ');
