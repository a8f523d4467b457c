import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from './table-of.js';

const TABLES = [
  tableOf('paired_phone', {
    columns: {
      version: 'whole',
      account_id: 'text',
      name: 'text',
      secret_hash: 'text',
      paired_at: 'text',
      seen_at: 'text',
      revoked_at: 'text?',
    },
    refers: { account_id: 'account' },
    indexes: { ix_paired_phone_account: ['account_id'] },
    unique: { ux_paired_phone_secret: ['secret_hash'] },
  }),
  tableOf('pairing_code', {
    columns: { version: 'whole', account_id: 'text', made_at: 'text' },
    refers: { account_id: 'account' },
  }),
];

/** Phones at the bench, let in by a short code. */
export class Phones1764000000017 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
