import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf } from '../table-of.js';

/** What an hour costs, dated, and the house price list. */
export class Rates1764000000005 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('rate_card', {
        columns: { version: 'whole', from_day: 'text', workings: 'text' },
        indexes: { ix_rate_card_from: ['from_day', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('standing_price', {
        columns: {
          version: 'whole',
          sort: 'text',
          place: 'whole',
          name: 'text',
          hours: 'text',
          trimmings: 'minor?',
          own_price: 'minor?',
          taken_from: 'text?',
          from_starting_values: 'yes-no',
        },
        indexes: { ix_standing_price_place: ['sort', 'place'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['standing_price', 'rate_card']) await runner.dropTable(table);
  }
}
