import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

/** Who did what, when, from and to; and what was asked once. */
export class History1764000000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('act', {
        columns: {
          at: 'text',
          who_id: 'text',
          who_name: 'text',
          subject: 'text',
          sentence: 'text',
          undoable: 'yes-no',
          undoes: 'text?',
          undone_by: 'text?',
        },
        indexes: { ix_act_subject: ['subject', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('change', {
        columns: {
          act_id: 'text',
          place: 'whole',
          in_table: 'text',
          row_id: 'text',
          before: 'text?',
          after: 'text?',
        },
        refers: { act_id: 'act' },
        indexes: { ix_change_act: ['act_id', 'place'] },
      }),
    );
    await runner.createTable(
      tableOf('once', {
        columns: { fingerprint: 'text', at: 'text', status: 'whole?', location: 'text?', body: 'text?' },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['once', 'change', 'act']) await runner.dropTable(table);
  }
}
