import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from './table-of.js';

const TABLE = tableOf('past_work', {
  columns: { version: 'whole', garment_id: 'text', document: 'text' },
  refers: { garment_id: 'past_garment' },
  unique: { ux_past_work_garment: ['garment_id'] },
});

/** Past garments by operation. */
export class PastWork1764000000021 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(TABLE.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.dropTable(TABLE.name);
  }
}
