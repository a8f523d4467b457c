import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from './table-of.js';

const TABLES = [
  tableOf('reminder', {
    columns: {
      version: 'whole',
      client_id: 'text',
      which: 'whole',
      ...texts('sent_on', 'to_whom', 'how', 'papers', 'document', 'sha256', 'written_at'),
    },
    refers: { client_id: 'client' },
    indexes: { ix_reminder_client: ['client_id', 'id'] },
  }),
  tableOf('reminder_pdf', { columns: { version: 'whole', bytes: 'text' }, refers: { id: 'reminder' } }),
];

/** Reminders as they went out. */
export class Reminders1764000000020 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
