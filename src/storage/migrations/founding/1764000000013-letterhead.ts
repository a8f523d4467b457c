import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from '../table-of.js';

const TABLES = [
  tableOf('paper_choice', {
    columns: {
      version: 'whole',
      ...texts('invoice_series', 'credit_series', 'treatment', 'taking', 'terms'),
      payment_days: 'whole',
      ...texts('iban', 'bic', 'bank', 'account_name', 'strapline', 'head_lines', 'small_print', 'language'),
    },
    refers: { id: 'studio' },
  }),
  tableOf('studio_mark', {
    columns: { version: 'whole', ...texts('kind', 'alternative', 'bytes') },
    refers: { id: 'studio' },
  }),
  tableOf('client_paper', { columns: { version: 'whole', language: 'text' }, refers: { id: 'client' } }),
];

/**
 * What papers need of the house and its clients. Tables of their own beside `studio` and `client`: a house that never
 * opened these pages has no row and stands as usual.
 */
export class Letterhead1764000000013 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
