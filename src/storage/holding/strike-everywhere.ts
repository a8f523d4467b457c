import { type EntityManager, type EntityMetadata, Like, type ObjectLiteral } from 'typeorm';
import { foldForSearch } from '../../domain/clients/client.js';
import { strikeOutOfDocument } from '../../domain/clients/strike-out.js';
import { OnceRow } from '../history/once.row.js';
import { ClientRow } from '../rows/clients/client.row.js';
import type { HeldPerson } from './held-keys.js';

/** Papers stay as they were issued; other people's names are theirs; bytes hold no words to find. */
const UNTOUCHED: Readonly<Record<string, readonly string[] | 'all'>> = {
  client: ['name', 'folded'],
  invoice: ['document'],
  receipt: 'all',
  invoice_pdf: 'all',
  receipt_pdf: 'all',
  quote_pdf: 'all',
  photo_picture: 'all',
  studio_mark: 'all',
  account: 'all',
  person: 'all',
  once: 'all',
};

/**
 * Strikes somebody's whole name, and the marks that belong to nobody else, wherever people have written them: a remark on
 * another commission, a line of the bank, a sentence of the history. Where another client has the same name, the name
 * stays in what is not their own.
 */
export const strikeEverywhere = async (manager: EntityManager, person: HeldPerson): Promise<void> => {
  // Answers kept for requests that are sent again hold whole cards; at the longest they would stay a week.
  for (const word of [person.row.id, ...person.names])
    await manager.update(OnceRow, { body: Like(`%${word}%`) }, { body: JSON.stringify({ erased: true }) });
  const others = new Set(
    (await manager.find(ClientRow, { select: { id: true, name: true } }))
      .filter(({ id }) => id !== person.row.id)
      .map(({ name }) => foldForSearch(name)),
  );
  const wanted = [
    ...person.names.filter((name) => !others.has(foldForSearch(name))),
    ...person.marks.filter((mark) => /@|\d{5}/.test(mark) && !mark.includes('\n')),
  ].filter((word) => [...word].length >= 5);
  for (const table of manager.connection.entityMetadatas) {
    const untouched = UNTOUCHED[table.tableName] ?? [];
    if (untouched === 'all') continue;
    for (const { propertyName, type } of table.columns)
      if (type === 'varchar' && !/(^|_)id$/.test(propertyName) && !untouched.includes(propertyName))
        await strikeColumn(manager, table, propertyName, wanted);
  }
};

const strikeColumn = async (
  manager: EntityManager,
  table: EntityMetadata,
  column: string,
  wanted: readonly string[],
): Promise<void> => {
  const folded = /(^|_)folded$/.test(column);
  for (const word of wanted.map((one) => (folded ? foldForSearch(one) : one))) {
    const like = (text: string): string => `%${text.replace(/[\\%_]/g, '\\$&')}%`;
    const rows: ObjectLiteral[] = await manager
      .createQueryBuilder(table.target, 'row')
      .select(['row.id', `row.${column}`])
      .where(`row.${column} LIKE :exact ESCAPE '\\' OR LOWER(row.${column}) LIKE :lower ESCAPE '\\'`, {
        exact: like(word),
        lower: like(word.toLowerCase()),
      })
      .getMany();
    for (const row of rows) {
      const text = strikeOutOfDocument(String(row[column]), [word]);
      if (text !== row[column]) await manager.update(table.target, { id: row.id }, { [column]: text });
    }
  }
};
