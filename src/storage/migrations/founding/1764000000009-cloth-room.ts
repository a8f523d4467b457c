import type { MigrationInterface, QueryRunner } from 'typeorm';
import { type ColumnWord, tableOf } from '../table-of.js';

const texts = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text']));
const maybe = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text?']));

const TABLES = [
  tableOf('supplier', {
    columns: { version: 'whole', ...texts('name', 'folded', 'address', 'email', 'phone', 'notes') },
    indexes: { ix_supplier_folded: ['folded', 'id'] },
  }),
  tableOf('material', {
    columns: {
      version: 'whole',
      ...texts('name', 'folded', 'kind', 'unit', 'width', 'width_mm', 'fibres', 'care'),
      ...texts('pattern_repeat', 'pattern_repeat_mm'),
      has_nap: 'yes-no',
      ...maybe('supplier_id'),
      ...texts('place', 'method', 'notes'),
    },
    refers: { supplier_id: 'supplier' },
    indexes: { ix_material_folded: ['folded', 'id'] },
  }),
  tableOf('purchase', {
    columns: {
      version: 'whole',
      ...texts('supplier_id', 'bought_on', 'paper_number', 'order_number', 'currency'),
      goods: 'minor',
      freight: 'minor',
      duty: 'minor',
      tax: 'minor',
      tax_recoverable: 'yes-no',
      ...texts('shared_by', 'notes', 'written_at'),
    },
    refers: { supplier_id: 'supplier' },
    indexes: { ix_purchase_supplier: ['supplier_id', 'id'] },
  }),
  tableOf('lot', {
    columns: {
      version: 'whole',
      ...texts('code', 'material_id', 'origin'),
      ...maybe('purchase_id', 'line_id'),
      ...texts('came_on', 'received'),
      ...maybe('unit_price'),
      landed: 'minor',
      cost_unknown: 'yes-no',
      left_over: 'text',
      value: 'minor',
      ...texts('width', 'width_mm', 'dye_lot', 'flaws', 'age', 'believed_age', 'provenance'),
      ...maybe('replacement_unit_cost'),
      ...texts('charge_at', 'charge_reason'),
      ...maybe('owner_id'),
      ...texts('smell', 'shrink_test', 'cautions'),
    },
    refers: { material_id: 'material', purchase_id: 'purchase', owner_id: 'client' },
    indexes: {
      ix_lot_material: ['material_id', 'id'],
      ix_lot_purchase: ['purchase_id', 'id'],
      ix_lot_line: ['line_id'],
    },
  }),
  tableOf('stock_entry', {
    columns: {
      version: 'whole',
      ...texts('kind', 'material_id', 'on_day', 'written_at', 'who', 'quantity'),
      cost: 'minor',
      ...maybe('commission_id', 'garment_id'),
      garment_name: 'text',
      ...maybe('line_id', 'purchase_id', 'of_id'),
      reason: 'text',
    },
    refers: { material_id: 'material' },
    indexes: {
      ix_stock_entry_material: ['material_id', 'id'],
      ix_stock_entry_commission: ['commission_id', 'id'],
      ix_stock_entry_of: ['of_id'],
      ix_stock_entry_purchase: ['purchase_id'],
    },
  }),
  tableOf('stock_part', {
    columns: { version: 'whole', ...texts('entry_id', 'lot_id', 'quantity'), cost: 'minor' },
    refers: { entry_id: 'stock_entry', lot_id: 'lot' },
    indexes: { ix_stock_part_entry: ['entry_id'], ix_stock_part_lot: ['lot_id', 'id'] },
  }),
  tableOf('reservation', {
    columns: {
      version: 'whole',
      material_id: 'text',
      lot_id: 'text?',
      ...texts('commission_id', 'garment_id'),
      line_id: 'text?',
      ...texts('quantity', 'note'),
    },
    refers: { material_id: 'material', lot_id: 'lot' },
    indexes: {
      ix_reservation_material: ['material_id', 'id'],
      ix_reservation_commission: ['commission_id'],
    },
  }),
  tableOf('shopping_tick', { columns: { version: 'whole', ...texts('ticked_at', 'who') } }),
  tableOf('thread_ratio', { columns: { version: 'whole', ...texts('ratio', 'source') } }),
];

/** The cloth room: what there is, where it came from, and everything that happened to it. */
export class ClothRoom1764000000009 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) await runner.createTable(table.clone());
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { name } of [...TABLES].reverse()) await runner.dropTable(name);
  }
}
