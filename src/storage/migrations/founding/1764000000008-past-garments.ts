import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

/** Totals of past garments out of a notebook, and the maker's own guess for a type. */
export class PastGarments1764000000008 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('past_garment', {
        columns: {
          version: 'whole',
          type_id: 'text',
          hours: 'text',
          planned_hours: 'text?',
          finished_on: 'text?',
          note: 'text',
        },
        refers: { type_id: 'garment_type' },
        indexes: { ix_past_garment_type: ['type_id', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('own_guess', {
        columns: { version: 'whole', hours: 'text' },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['own_guess', 'past_garment']) await runner.dropTable(table);
  }
}
