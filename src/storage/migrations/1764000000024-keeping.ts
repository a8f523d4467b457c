import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from './table-of.js';

const TABLES = [
  tableOf('client_keeping', {
    columns: { version: 'whole', keep_until: 'text?', erased_on: 'text?', erased_by: 'text' },
    refers: { id: 'client' },
  }),
  tableOf('keeping_rule', { columns: { version: 'whole', years: 'whole', child_years: 'whole' } }),
];

/** How long something is kept on a client, and who was erased. */
export class Keeping1764000000024 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
