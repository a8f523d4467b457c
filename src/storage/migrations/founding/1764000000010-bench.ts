import type { MigrationInterface, QueryRunner } from 'typeorm';
import { type ColumnWord, maybe, tableOf, texts } from '../table-of.js';

const WORKED_ON: Record<string, ColumnWord> = {
  ...maybe('commission_id', 'garment_id'),
  garment_name: 'text',
  operation_id: 'text?',
  ...texts('kind', 'name', 'stage', 'mode', 'away', 'cause'),
  extra_id: 'text?',
};

const TABLES = [
  tableOf('person', {
    columns: {
      version: 'whole',
      ...texts('name', 'folded', 'role'),
      account_id: 'text?',
      sees_prices: 'yes-no',
      has_left: 'yes-no',
    },
    unique: { ux_person_folded: ['folded'] },
  }),
  tableOf('bench_entry', {
    columns: {
      ...WORKED_ON,
      version: 'whole',
      ...texts('person_id', 'person_name'),
      minutes: 'whole',
      on_day: 'text',
      ...maybe('begun_at', 'ended_at'),
      way: 'text',
      of_id: 'text?',
      ...texts('note', 'written_at'),
    },
    refers: { person_id: 'person' },
    indexes: {
      ix_bench_entry_garment: ['garment_id', 'id'],
      ix_bench_entry_commission: ['commission_id', 'id'],
      ix_bench_entry_person: ['person_id', 'on_day', 'id'],
      ix_bench_entry_day: ['on_day', 'id'],
      ix_bench_entry_of: ['of_id'],
      ix_bench_entry_kind: ['kind', 'minutes'],
    },
  }),
  tableOf('running_clock', {
    columns: { ...WORKED_ON, version: 'whole', begun_at: 'text' },
    refers: { id: 'person' },
  }),
  tableOf('garment_mark', {
    columns: {
      version: 'whole',
      ...texts('garment_id', 'commission_id', 'kind'),
      operation_id: 'text?',
      ...texts('on_day', 'who', 'words', 'document'),
      of_id: 'text?',
      written_at: 'text',
    },
    indexes: {
      ix_garment_mark_garment: ['garment_id', 'id'],
      ix_garment_mark_commission: ['commission_id', 'id'],
      ix_garment_mark_kind: ['kind', 'on_day', 'id'],
    },
  }),
];

/** The bench: who works, what they worked, the clocks that run, and what happened to each garment. */
export class Bench1764000000010 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
