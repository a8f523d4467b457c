import type { EntityManager, EntityMetadata } from 'typeorm';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { csvOf } from '../../../printing/exchange/csv.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { DataHome } from '../../../storage/connection/data-source.js';
import { isSecret } from '../../../storage/history/secret-columns.js';
import { migrations } from '../../../storage/migrations/migrations.js';
import { goesOut, type Manifest, rowsFile } from '../../../storage/moving/export/export-form.js';
import { writeZip, type ZipFile } from '../../../storage/moving/export/zip-file.js';
import {
  digestOfRows,
  type PortableRow,
  rowsOf,
  type TableDigest,
  tablesOf,
} from '../../../storage/moving/portable-rows.js';
import { withSnapshot } from '../../../storage/moving/snapshot.js';
import { putPapers } from './put-papers.js';
import { readMe } from './read-me.js';
import { schemaOfTables } from './schema-of-tables.js';

/** How far an export has come: tables of rows, then the papers. */
export type Told = (done: number, all: number) => void;

const AT_ONCE = 200;

/** Columns that a spreadsheet has no use for, or nobody. */
const isForTable = (column: string): boolean => column !== 'bytes' && !isSecret(column);

/**
 * Writes everything there is at one moment into an archive of open files, while the studio works on.
 *
 * @param folder the studio's own, where a copy lies meanwhile
 * @param to a file that is not there yet
 */
export const writeExport = async (
  home: DataHome,
  folder: string,
  to: string,
  clock: Clock,
  told: Told = () => undefined,
): Promise<readonly TableDigest[]> => {
  const digests: TableDigest[] = [];
  await withSnapshot(home, folder, (manager) =>
    writeZip(to, async (zip) => {
      const tables = tablesOf(manager.connection).filter(goesOut);
      const studio = await studioBook.maybe({ manager });
      await zip.whole('README.txt', readMe(studio?.identity.name ?? 'A studio', clock.now()));
      await zip.whole('schema.json', `${JSON.stringify(schemaOfTables(tables), null, 2)}\n`);
      for (const [place, table] of tables.entries()) {
        told(place, tables.length + 1);
        digests.push(await putTable(zip, manager, table));
      }
      told(tables.length, tables.length + 1);
      await putPapers(zip, manager);
      const manifest: Manifest = {
        exportOf: 'bastings',
        form: 1,
        madeAt: clock.now(),
        migrations: migrations.map(({ name }) => name),
        tables: digests,
      };
      await zip.whole('manifest.json', `${JSON.stringify(manifest, null, 2)}\n`);
      told(tables.length + 1, tables.length + 1);
    }),
  );
  return digests;
};

/** A table twice: every row as a line of JSON, and for a spreadsheet. */
const putTable = async (
  zip: ZipFile,
  manager: EntityManager,
  table: EntityMetadata,
): Promise<TableDigest> => {
  const name = table.tableName;
  const digest = digestOfRows();
  const lines = zip.begin(rowsFile(name));
  for await (const some of pagesOf(manager, table)) {
    for (const row of some) digest.add(row);
    await lines.write(some.map((row) => `${JSON.stringify(row)}\n`).join(''));
  }
  await lines.end();
  // One file after the other: an archive takes one at a time.
  const cells = zip.begin(`tables/${name}.csv`);
  const columns = table.columns.map(({ databaseName }) => databaseName).filter(isForTable);
  const asCsv = (rows: readonly PortableRow[], byteOrderMark: boolean): string =>
    csvOf(
      columns.map((heading) => ({ heading, cell: (row: PortableRow) => cellOf(row[heading] ?? null) })),
      rows,
      { byteOrderMark },
    );
  await cells.write(asCsv([], true));
  for await (const some of pagesOf(manager, table)) {
    const text = asCsv(some, false);
    await cells.write(text.slice(text.indexOf('\r\n') + 2));
  }
  await cells.end();
  return { table: name, ...digest.done() };
};

const cellOf = (value: PortableRow[string]): string | Decimal | undefined => {
  if (value === null) return undefined;
  if (typeof value === 'number') return new Decimal(value);
  return typeof value === 'boolean' ? String(value) : value;
};

async function* pagesOf(manager: EntityManager, table: EntityMetadata): AsyncGenerator<PortableRow[]> {
  let some: PortableRow[] = [];
  for await (const row of rowsOf(manager, table)) {
    some.push(row);
    if (some.length === AT_ONCE) {
      yield some;
      some = [];
    }
  }
  if (some.length > 0) yield some;
}
