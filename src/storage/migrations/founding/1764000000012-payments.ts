import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from '../table-of.js';

/** Money that came in and went back, what it went to, receipts, and lines of bank statements. */
export class Payments1764000000012 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('payment', {
        columns: {
          version: 'whole',
          ...texts('kind', 'client_id'),
          commission_id: 'text?',
          on_day: 'text',
          amount: 'minor',
          ...texts('currency', 'how', 'note'),
          of_id: 'text?',
          ...texts('written_at', 'who'),
        },
        refers: {
          client_id: 'client',
          commission_id: 'commission',
          of_id: 'payment as fk_payment_reversed',
        },
        indexes: {
          ix_payment_client: ['client_id', 'id'],
          ix_payment_of: ['of_id'],
          ix_payment_day: ['on_day'],
        },
      }),
    );
    await runner.createTable(
      tableOf('allocation', {
        columns: {
          version: 'whole',
          ...texts('client_id', 'payment_id'),
          invoice_id: 'text?',
          refund_id: 'text?',
          amount: 'minor',
          written_at: 'text',
        },
        refers: {
          client_id: 'client',
          payment_id: 'payment',
          invoice_id: 'invoice',
          refund_id: 'payment as fk_allocation_refund',
        },
        indexes: {
          ix_allocation_client: ['client_id', 'id'],
          ix_allocation_payment: ['payment_id'],
          ix_allocation_invoice: ['invoice_id'],
        },
      }),
    );
    await runner.createTable(
      tableOf('receipt', {
        columns: {
          version: 'whole',
          ...texts('payment_id', 'number', 'issued_on', 'issued_at', 'document', 'sha256'),
        },
        refers: { payment_id: 'payment' },
        indexes: { ix_receipt_payment: ['payment_id'] },
        unique: { ux_receipt_number: ['number'] },
      }),
    );
    await runner.createTable(
      tableOf('receipt_pdf', { columns: { version: 'whole', bytes: 'text' }, refers: { id: 'receipt' } }),
    );
    await runner.createTable(
      tableOf('bank_import', {
        columns: {
          version: 'whole',
          ...texts('brought_at', 'who'),
          lines: 'whole',
          known: 'whole',
          left_out: 'whole',
          mapping: 'text',
        },
      }),
    );
    await runner.createTable(
      tableOf('bank_line', {
        columns: {
          version: 'whole',
          import_id: 'text',
          place: 'whole',
          on_day: 'text',
          amount: 'minor',
          ...texts('currency', 'payer', 'words', 'fingerprint', 'standing'),
          payment_id: 'text?',
        },
        refers: { import_id: 'bank_import as fk_bank_line_import', payment_id: 'payment' },
        indexes: { ix_bank_line_import: ['import_id', 'id'], ix_bank_line_payment: ['payment_id'] },
        unique: { ux_bank_line_fingerprint: ['fingerprint'] },
      }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['bank_line', 'bank_import', 'receipt_pdf', 'receipt', 'allocation', 'payment'])
      await runner.dropTable(table);
  }
}
