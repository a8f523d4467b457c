import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from './table-of.js';

const TABLES = [
  tableOf('outworker', {
    columns: { version: 'whole', ...texts('name', 'reached_at', 'rates', 'notes', 'folded') },
    indexes: { ix_outworker_name: ['folded', 'id'] },
  }),
  tableOf('outwork_ticket', {
    columns: {
      version: 'whole',
      ...texts('number', 'outworker_id', 'commission_id', 'garment_id', 'garment_name', 'work'),
      pieces: 'whole',
      currency: 'text',
      piece_rate: 'minor',
      out_on: 'text',
      due_on: 'text?',
      back_on: 'text?',
      checked_on: 'text?',
      ...texts('found', 'notes', 'folded'),
    },
    refers: { outworker_id: 'outworker' },
    indexes: {
      ix_outwork_ticket_back: ['back_on', 'id'],
      ix_outwork_ticket_garment: ['garment_id'],
      ix_outwork_ticket_outworker: ['outworker_id', 'id'],
    },
    unique: { ux_outwork_ticket_number: ['number'] },
  }),
  tableOf('money_out', {
    columns: {
      version: 'whole',
      ...texts('kind', 'on_day', 'currency'),
      amount: 'minor',
      tax: 'minor',
      ...texts('payee', 'paper_number', 'what'),
      commission_id: 'text?',
      garment_id: 'text?',
      garment_name: 'text',
      ticket_id: 'text?',
      of_id: 'text?',
      ...texts('reason', 'written_at'),
    },
    refers: { ticket_id: 'outwork_ticket' },
    indexes: {
      ix_money_out_day: ['on_day', 'id'],
      ix_money_out_garment: ['garment_id'],
      ix_money_out_ticket: ['ticket_id'],
    },
    unique: { ux_money_out_of: ['of_id'] },
  }),
  tableOf('paid_out', {
    columns: { version: 'whole', ...texts('about', 'paid_on', 'how') },
    unique: { ux_paid_out_about: ['about'] },
  }),
  tableOf('enquiry', {
    columns: {
      version: 'whole',
      ...texts('name', 'reached_at', 'what', 'asked_on'),
      wanted_by: 'text?',
      state: 'text',
      next_on: 'text?',
      notes: 'text',
      client_id: 'text?',
      commission_id: 'text?',
      folded: 'text',
    },
    refers: { client_id: 'client', commission_id: 'commission' },
    indexes: { ix_enquiry_state: ['state', 'id'] },
  }),
  tableOf('counter_ticket', {
    columns: {
      version: 'whole',
      ...texts('number', 'came_on', 'name', 'reached_at', 'what', 'found', 'currency', 'lines'),
      ready_by: 'text?',
      ready_on: 'text?',
      collected_on: 'text?',
      ...texts('collected_by', 'notes', 'folded'),
    },
    indexes: { ix_counter_ticket_collected: ['collected_on', 'id'] },
    unique: { ux_counter_ticket_number: ['number'] },
  }),
];

/** Money out that is not cloth, outwork and its tickets, enquiries, and counter work. */
export class BesideTheBench1764000000016 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
