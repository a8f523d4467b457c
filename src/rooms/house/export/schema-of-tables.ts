import type { EntityMetadata } from 'typeorm';

const KINDS: Readonly<Record<string, string>> = { boolean: 'boolean', bigint: 'integer', integer: 'integer' };

/** The rows of every table as JSON Schema (2020-12): columns, what may be empty, and what refers to what. */
export const schemaOfTables = (tables: readonly EntityMetadata[]): object => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Rows of a studio, one JSON object a line in rows/<table>.jsonl',
  $defs: Object.fromEntries(
    tables.map((table) => [
      table.tableName,
      {
        type: 'object',
        properties: Object.fromEntries(
          table.columns.map(({ databaseName, type, isNullable, isPrimary }) => {
            const kind = KINDS[String(type)] ?? 'string';
            const refers = table.foreignKeys.find(({ columnNames }) => columnNames.includes(databaseName));
            const words = [
              ...(isPrimary ? ['The key of the row.'] : []),
              ...(refers ? [`The id of a row of ${refers.referencedEntityMetadata.tableName}.`] : []),
              ...(String(type) === 'bigint' ? ['Whole minor units, such as cents.'] : []),
            ];
            const said = words.length > 0 ? { description: words.join(' ') } : {};
            return [databaseName, { type: isNullable ? [kind, 'null'] : kind, ...said }];
          }),
        ),
        required: table.columns.map(({ databaseName }) => databaseName),
        additionalProperties: false,
      },
    ]),
  ),
});
