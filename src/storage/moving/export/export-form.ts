import { readFile } from 'node:fs/promises';
import { unzipSync } from 'fflate';
import type { EntityMetadata } from 'typeorm';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { migrations } from '../../migrations/migrations.js';
import { digestOfRows, type PortableRow, type TableDigest } from '../portable-rows.js';

/** What an export says of itself, in `manifest.json`. */
export type Manifest = {
  readonly exportOf: 'bastings';
  readonly form: 1;
  readonly madeAt: string;
  readonly migrations: readonly string[];
  readonly tables: readonly TableDigest[];
};

/** Sign-ins, keys and answers kept for repeated requests: they belong to one machine and open doors, so they stay there. */
const STAYS_HERE = new Set([
  'sign_in_session',
  'api_token',
  'pairing_code',
  'paired_phone',
  'calendar_key',
  'once',
]);

export const goesOut = ({ tableName }: Pick<EntityMetadata, 'tableName'>): boolean =>
  !STAYS_HERE.has(tableName);

export const rowsFile = (table: string): string => `rows/${table}.jsonl`;

/** An export that was opened and found whole. */
export type ReadExport = { readonly manifest: Manifest; rows(table: string): PortableRow[] };

/**
 * Opens an export, reads every row and holds counts and hashes against what the manifest says.
 *
 * @throws Invalid when it is none, or of another release; Conflict when it is damaged
 */
export const readExport = async (file: string): Promise<ReadExport> => {
  const bytes = await readFile(file).catch((error: NodeJS.ErrnoException) => {
    throw error.code === 'ENOENT' || error.code === 'EISDIR'
      ? new Invalid(`There is no file ${file}.`)
      : error;
  });
  const part = (name: string): string | undefined => {
    const found = unzipSync(bytes, { filter: (entry) => entry.name === name })[name];
    return found && Buffer.from(found).toString('utf8');
  };
  const manifest = manifestOf(inWords(() => part('manifest.json')));
  const rows = (table: string): PortableRow[] => {
    const text = inWords(() => part(rowsFile(table)));
    if (text === undefined) throw damaged();
    return text
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => inWords(() => JSON.parse(line) as PortableRow));
  };
  for (const { table, rows: count, sha256 } of manifest.tables) {
    const digest = digestOfRows();
    for (const row of rows(table)) digest.add(row);
    const found = digest.done();
    if (found.rows !== count || found.sha256 !== sha256) throw damaged();
  }
  return { manifest, rows };
};

const damaged = (): Conflict =>
  new Conflict('This export is damaged: not everything it names is in it.', 'damaged');

const inWords = <T>(read: () => T): T => {
  try {
    return read();
  } catch {
    throw new Invalid('This file is not an export made by this program, or it is damaged.');
  }
};

const manifestOf = (text: string | undefined): Manifest => {
  const said = inWords(() => JSON.parse(text ?? '') as Partial<Manifest>);
  if (said?.exportOf !== 'bastings' || said.form !== 1 || !Array.isArray(said.tables))
    throw new Invalid('This file is not an export made by this program, or it is damaged.');
  const known = migrations.map(({ name }) => name);
  if (JSON.stringify(said.migrations) !== JSON.stringify(known))
    throw new Invalid('This export was made by another release of the program. Bring it in with that one.');
  return said as Manifest;
};
