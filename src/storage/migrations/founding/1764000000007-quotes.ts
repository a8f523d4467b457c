import type { MigrationInterface, QueryRunner } from 'typeorm';
import { type ColumnWord, tableOf } from '../table-of.js';

const texts = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text']));

/** Quotes: drafts, issued versions with their bytes, and what was answered. */
export class Quotes1764000000007 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('issued_quote', {
        columns: {
          version: 'whole',
          ...texts('commission_id', 'client_id', 'number'),
          edition: 'whole',
          ...texts('client_name', 'title', 'folded', 'issued_on'),
          valid_until: 'text?',
          ...texts('issued_at', 'currency'),
          total: 'minor',
          ...texts('document', 'costs', 'sha256'),
        },
        refers: { commission_id: 'commission', client_id: 'client' },
        indexes: { ix_issued_quote_commission: ['commission_id', 'id'] },
        unique: { ux_issued_quote_number: ['number', 'edition'] },
      }),
    );
    await runner.createTable(
      tableOf('quote_pdf', { columns: { version: 'whole', bytes: 'text' }, refers: { id: 'issued_quote' } }),
    );
    await runner.createTable(
      tableOf('quote_answer', {
        columns: {
          version: 'whole',
          ...texts('quote_id', 'answer', 'answered_on', 'by_whom', 'how', 'words'),
          taken: 'text?',
          corrects: 'text?',
          written_at: 'text',
        },
        refers: { quote_id: 'issued_quote' },
        indexes: { ix_quote_answer_quote: ['quote_id', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('quote_draft', {
        columns: {
          version: 'whole',
          commission_id: 'text',
          number: 'text?',
          prices_of: 'text?',
          choices: 'text',
        },
        refers: { commission_id: 'commission', prices_of: 'issued_quote as fk_quote_draft_prices_of' },
        indexes: { ix_quote_draft_commission: ['commission_id', 'id'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['quote_draft', 'quote_answer', 'quote_pdf', 'issued_quote'])
      await runner.dropTable(table);
  }
}
