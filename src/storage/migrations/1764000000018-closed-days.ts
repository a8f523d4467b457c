import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from './table-of.js';

const TABLES = [
  tableOf('closed_day', {
    columns: { version: 'whole', on_day: 'text', words: 'text', span_id: 'text' },
    indexes: { ix_closed_day_span: ['span_id'] },
    unique: { ux_closed_day_day: ['on_day'] },
  }),
  tableOf('moved_promise', {
    columns: { version: 'whole', span_id: 'text', garment_id: 'text', was_on: 'text', now_on: 'text' },
    indexes: { ix_moved_promise_garment: ['garment_id'], ix_moved_promise_span: ['span_id'] },
  }),
];

/** Days the workroom is closed, and the promises that moved with them. */
export class ClosedDays1764000000018 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
