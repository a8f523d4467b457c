import { Table, type TableColumnOptions, TableForeignKey, TableIndex } from 'typeorm';

type ColumnKind = 'text' | 'whole' | 'minor' | 'yes-no';
const TYPES: Record<ColumnKind, string> = {
  text: 'varchar',
  whole: 'integer',
  minor: 'bigint',
  'yes-no': 'boolean',
};

/** A column of a migration: `text`, or `text?` when it may be empty. */
export type ColumnWord = ColumnKind | `${ColumnKind}?`;

/** Columns of text, by their names. */
export const texts = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text']));

/** Columns of text that may be empty, by their names. */
export const maybe = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text?']));

/** How a table is described in a migration: its columns, what they refer to, and its indexes, all named. */
export type TableWords = {
  readonly columns: Readonly<Record<string, ColumnWord>>;
  readonly refers?: Readonly<Record<string, string>>;
  readonly indexes?: Readonly<Record<string, readonly string[]>>;
  readonly unique?: Readonly<Record<string, readonly string[]>>;
};

/**
 * A table whose key is the column `id`; constraints are named `pk_table`, `fk_table_target`, and as given for indexes,
 * the same as the row's decorators say, so that the drift check stays empty on both databases.
 *
 * @param words.refers column -> `target` or `target as constraint_name`
 */
export const tableOf = (name: string, words: TableWords): Table =>
  new Table({
    name,
    columns: [
      { name: 'id', type: 'varchar', isPrimary: true, primaryKeyConstraintName: `pk_${name}` },
      ...Object.entries(words.columns).map(([column, word]): TableColumnOptions => {
        const optional = word.endsWith('?');
        return { name: column, type: TYPES[word.replace('?', '') as ColumnKind], isNullable: optional };
      }),
    ],
    foreignKeys: Object.entries(words.refers ?? {}).map(([column, said]) => {
      const [target, constraint] = said.split(' as ') as [string, string?];
      return new TableForeignKey({
        name: constraint ?? `fk_${name}_${target}`,
        columnNames: [column],
        referencedTableName: target,
        referencedColumnNames: ['id'],
      });
    }),
    indices: [
      ...Object.entries(words.indexes ?? {}).map(
        ([index, columns]) => new TableIndex({ name: index, columnNames: [...columns] }),
      ),
      ...Object.entries(words.unique ?? {}).map(
        ([index, columns]) => new TableIndex({ name: index, columnNames: [...columns], isUnique: true }),
      ),
    ],
  });
