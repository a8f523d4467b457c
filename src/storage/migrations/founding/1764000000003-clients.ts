import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

/** The people the studio works for. */
export class Clients1764000000003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('client', {
        columns: {
          version: 'whole',
          code: 'text',
          name: 'text',
          folded: 'text',
          address: 'text',
          country: 'text',
          email: 'text',
          phone: 'text',
          tax_number: 'text',
          notes: 'text',
          is_child: 'yes-no',
          birth_date: 'text?',
          guardian: 'text',
        },
        indexes: { ix_client_folded: ['folded', 'id'] },
        unique: { ux_client_code: ['code'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.dropTable('client');
  }
}
