import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from '../table-of.js';

/** Invoices and credit notes: drafts, issued papers with their bytes, what they cite, and when they were sent. */
export class Invoices1764000000011 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('invoice', {
        columns: {
          version: 'whole',
          commission_id: 'text?',
          ...texts('client_id', 'client_name', 'title', 'kind', 'number', 'series', 'folded', 'issued_on'),
          due_on: 'text?',
          ...texts('issued_at', 'currency'),
          tax: 'minor',
          total: 'minor',
          payable: 'minor',
          ...texts('language', 'document', 'sha256'),
        },
        refers: { commission_id: 'commission', client_id: 'client' },
        indexes: {
          ix_invoice_commission: ['commission_id', 'id'],
          ix_invoice_client: ['client_id', 'id'],
        },
        unique: { ux_invoice_number: ['number'] },
      }),
    );
    await runner.createTable(
      tableOf('invoice_pdf', { columns: { version: 'whole', bytes: 'text' }, refers: { id: 'invoice' } }),
    );
    await runner.createTable(
      tableOf('invoice_cite', {
        columns: { version: 'whole', ...texts('invoice_id', 'cited_id') },
        refers: { invoice_id: 'invoice', cited_id: 'invoice as fk_invoice_cite_cited' },
        indexes: { ix_invoice_cite_invoice: ['invoice_id'], ix_invoice_cite_cited: ['cited_id'] },
      }),
    );
    await runner.createTable(
      tableOf('invoice_draft', {
        columns: {
          version: 'whole',
          commission_id: 'text?',
          ...texts('client_id', 'kind'),
          credits: 'text?',
          choices: 'text',
        },
        refers: {
          commission_id: 'commission',
          client_id: 'client',
          credits: 'invoice as fk_invoice_draft_credits',
        },
        indexes: { ix_invoice_draft_commission: ['commission_id', 'id'] },
      }),
    );
    await runner.createTable(
      tableOf('paper_sent', {
        columns: {
          version: 'whole',
          ...texts('paper_id', 'sent_on', 'to_whom', 'how', 'sha256', 'written_at'),
        },
        refers: { paper_id: 'invoice' },
        indexes: { ix_paper_sent_paper: ['paper_id', 'id'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['paper_sent', 'invoice_draft', 'invoice_cite', 'invoice_pdf', 'invoice'])
      await runner.dropTable(table);
  }
}
