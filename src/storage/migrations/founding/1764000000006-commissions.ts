import type { MigrationInterface, QueryRunner } from 'typeorm';
import { type ColumnWord, tableOf } from '../table-of.js';

const texts = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text']));
const shown = { shown_to_client: 'yes-no', client_wording: 'text' } as const;

/** Commissions, their garments with plan, materials and expenses, and the types and operations the studio knows. */
export class Commissions1764000000006 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await this.makingUp(runner);
    await runner.createTable(
      tableOf('commission', {
        columns: {
          version: 'whole',
          ...texts('number', 'client_id'),
          payer_id: 'text?',
          ...texts('title', 'order_number', 'opened_on'),
          wanted_by: 'text?',
          ...texts('notes', 'folded', 'certainty', 'profit_basis', 'profit_share', 'handling_share'),
          minimum_charge: 'minor?',
          ...texts('rush_share', 'rush_on'),
          round_to: 'minor',
          discount: 'minor',
          ...texts('deposit_rule', 'deposit_share'),
        },
        refers: { client_id: 'client', payer_id: 'client as fk_commission_payer' },
        indexes: { ix_commission_client: ['client_id', 'id'] },
        unique: { ux_commission_number: ['number'] },
      }),
    );
    await runner.createTable(
      tableOf('garment', {
        columns: {
          version: 'whole',
          commission_id: 'text',
          place: 'whole',
          ...texts('name', 'type_id', 'make', 'wearer_id'),
          due_on: 'text?',
          notes: 'text',
          own_price: 'minor?',
        },
        refers: {
          commission_id: 'commission',
          type_id: 'garment_type',
          wearer_id: 'client as fk_garment_wearer',
        },
        indexes: { ix_garment_commission: ['commission_id', 'place'], ix_garment_type: ['type_id', 'id'] },
      }),
    );
    await this.linesUp(runner);
  }

  async down(runner: QueryRunner): Promise<void> {
    const tables = 'expense_line material_line operation garment commission known_operation garment_type';
    for (const table of tables.split(' ')) await runner.dropTable(table);
  }

  private async makingUp(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('garment_type', {
        columns: { version: 'whole', ...texts('name', 'plural'), is_menu: 'yes-no', measuring_list: 'text' },
      }),
    );
    await runner.createTable(
      tableOf('known_operation', {
        columns: {
          version: 'whole',
          garment_type: 'text',
          no: 'whole',
          ...texts(
            'kind',
            'name',
            'stage',
            'mode',
            'driver',
            'typical_count',
            'fixed_minutes',
            'minutes_per_unit',
          ),
          starting_spread: 'text?',
          needs_minutes: 'yes-no',
          basting: 'yes-no',
          is_alternative: 'yes-no',
          ...texts('instead_of', 'makes'),
          is_menu: 'yes-no',
          from_starting_values: 'yes-no',
          source: 'text',
        },
        refers: { garment_type: 'garment_type' },
        indexes: { ix_known_operation_type: ['garment_type', 'no'] },
      }),
    );
  }

  private async linesUp(runner: QueryRunner): Promise<void> {
    const ofGarment = { version: 'whole', garment_id: 'text', place: 'whole' } as const;
    const refers = { garment_id: 'garment' };
    await runner.createTable(
      tableOf('operation', {
        columns: {
          ...ofGarment,
          ...texts('kind', 'name', 'stage', 'mode', 'mode_shares'),
          basting: 'yes-no',
          ...texts('driver', 'quantity', 'fixed_minutes', 'minutes_per_unit'),
          needs_minutes: 'yes-no',
          starting_spread: 'text?',
          from_starting_values: 'yes-no',
          hand_stitch: 'text?',
          ...shown,
        },
        refers,
        indexes: { ix_operation_garment: ['garment_id', 'place'] },
      }),
    );
    await runner.createTable(
      tableOf('material_line', {
        columns: {
          ...ofGarment,
          ...texts('name', 'quantity', 'unit', 'unit_cost', 'waste_share', 'waste_of'),
          handling: 'yes-no',
          replacement_unit_cost: 'text?',
          charge_at: 'text',
          ...shown,
        },
        refers,
        indexes: { ix_material_line_garment: ['garment_id', 'place'] },
      }),
    );
    await runner.createTable(
      tableOf('expense_line', {
        columns: { ...ofGarment, name: 'text', amount: 'minor', ...shown },
        refers,
        indexes: { ix_expense_line_garment: ['garment_id', 'place'] },
      }),
    );
  }
}
