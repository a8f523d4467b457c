import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

const EXTRA = tableOf('extra', {
  columns: {
    version: 'whole',
    commission_id: 'text',
    garment_id: 'text',
    number: 'whole',
    cause: 'text',
    kind: 'text',
    wording: 'text',
    currency: 'text',
    price: 'minor',
    prices_include: 'text',
    tax_category: 'text',
    tax_rate: 'text?',
    work: 'text',
    due_before: 'text?',
    due_after: 'text?',
    takes_back_id: 'text?',
    offered_on: 'text',
    state: 'text',
    answered_on: 'text?',
    by_whom: 'text',
    how: 'text',
    words: 'text',
    written_at: 'text',
  },
  refers: { commission_id: 'commission' },
  indexes: { ix_extra_garment: ['garment_id', 'number'] },
  unique: { ux_extra_number: ['commission_id', 'number'] },
});

/** Extras: departures from a plan that were offered, agreed, given or taken back. */
export class Extras1764000000014 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(EXTRA.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.dropTable(EXTRA.name);
  }
}
