import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

/** What the studio measures, and what it measured. */
export class Measurements1764000000004 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('body_dimension', {
        columns: {
          version: 'whole',
          place: 'whole',
          name: 'text',
          from_standard: 'yes-no',
          trade_word: 'text',
          sort: 'text',
          how: 'text',
          survey: 'text',
          source: 'text',
        },
      }),
    );
    await runner.createTable(
      tableOf('measurement_set', {
        columns: {
          version: 'whole',
          client_id: 'text',
          taken_on: 'text',
          taken_by: 'text',
          worn: 'text',
          figuration: 'text',
          guardian: 'text',
          garment_type: 'text',
          instead_of: 'text?',
        },
        refers: { client_id: 'client' },
        indexes: { ix_measurement_set_client: ['client_id', 'taken_on', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('measured_value', {
        columns: {
          version: 'whole',
          set_id: 'text',
          dimension_id: 'text',
          place: 'whole',
          typed: 'text',
          unit: 'text',
          mm: 'text',
          note: 'text?',
          shown: 'text',
          confirmed: 'yes-no',
        },
        refers: { set_id: 'measurement_set', dimension_id: 'body_dimension' },
        unique: { ux_measured_value_dimension: ['set_id', 'dimension_id'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.dropTable('measured_value');
    await runner.dropTable('measurement_set');
    await runner.dropTable('body_dimension');
  }
}
