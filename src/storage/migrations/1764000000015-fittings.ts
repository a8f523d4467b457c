import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tableOf, texts } from './table-of.js';

const TABLES = [
  tableOf('fitting', {
    columns: {
      version: 'whole',
      ...texts('commission_id', 'kind', 'on_day', 'at_time'),
      minutes: 'whole',
      ...texts('state', 'present', 'worn', 'guardian', 'notes', 'reason'),
      pattern_changed: 'yes-no',
      pattern_words: 'text',
      next_id: 'text?',
      changed_at: 'text',
    },
    refers: { commission_id: 'commission' },
    indexes: {
      ix_fitting_commission: ['commission_id', 'on_day'],
      ix_fitting_day: ['on_day', 'at_time'],
    },
  }),
  tableOf('fitting_garment', {
    columns: { version: 'whole', ...texts('fitting_id', 'garment_id') },
    refers: { fitting_id: 'fitting' },
    indexes: {
      ix_fitting_garment_fitting: ['fitting_id'],
      ix_fitting_garment_garment: ['garment_id', 'fitting_id'],
    },
  }),
  tableOf('correction', {
    columns: {
      version: 'whole',
      ...texts('fitting_id', 'garment_id'),
      line: 'whole',
      ...texts('place', 'direction', 'amount'),
      mm: 'text?',
    },
    refers: { fitting_id: 'fitting' },
    indexes: {
      ix_correction_fitting: ['fitting_id', 'line'],
      ix_correction_garment: ['garment_id', 'fitting_id'],
    },
  }),
  tableOf('photo', {
    columns: {
      version: 'whole',
      about: 'text',
      client_id: 'text?',
      ...texts('taken_on', 'words', 'scope', 'consent_by'),
      until_day: 'text?',
      width: 'whole',
      height: 'whole',
      added_by: 'text',
    },
    indexes: {
      ix_photo_about: ['about', 'id'],
      ix_photo_client: ['client_id', 'id'],
      ix_photo_until: ['until_day'],
    },
  }),
  tableOf('photo_picture', {
    columns: { version: 'whole', ...texts('picture_bytes', 'small_bytes') },
    refers: { id: 'photo' },
  }),
  tableOf('photo_rule', {
    columns: { version: 'whole', of_children: 'yes-no', months: 'whole', child_months: 'whole' },
  }),
  tableOf('pattern', {
    columns: {
      version: 'whole',
      ...texts('number', 'client_id', 'garment_type', 'name', 'hook', 'last_correction'),
      corrected_on: 'text?',
      fitting_id: 'text?',
      from_garment_id: 'text?',
      notes: 'text',
    },
    refers: { client_id: 'client' },
    indexes: { ix_pattern_client: ['client_id', 'id'] },
    unique: { ux_pattern_number: ['number'] },
  }),
  tableOf('pattern_use', {
    columns: { version: 'whole', pattern_id: 'text' },
    refers: { pattern_id: 'pattern' },
    indexes: { ix_pattern_use_pattern: ['pattern_id'] },
  }),
  tableOf('calendar_key', {
    columns: {
      version: 'whole',
      ...texts('name', 'secret_hash', 'made_by', 'made_at'),
      revoked_at: 'text?',
    },
    unique: { ux_calendar_key_hash: ['secret_hash'] },
  }),
];

/** Fittings with their corrections, photographs, patterns on their hooks, and the calendar's secret addresses. */
export class Fittings1764000000015 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
