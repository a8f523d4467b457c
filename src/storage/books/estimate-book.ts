import type { ChargedAt, ExpenseLine, MaterialLine } from '../../domain/commissions/garment.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import type { QuantityUnit } from '../../domain/kernel/quantity.js';
import { ExpenseLineRow } from '../rows/commissions/expense-line.row.js';
import { MaterialLineRow } from '../rows/commissions/material-line.row.js';
import type { Reading, Writing } from '../session.js';
import { studioBook } from './studio-book.js';

type MaterialWords = Omit<MaterialLine, 'id' | 'version'>;
type ExpenseWords = Omit<ExpenseLine, 'id' | 'version'>;

/** The book of what a garment is planned to take besides work: materials and direct expenses. */
export const estimateBook = {
  async materialsOf(reading: Reading, garmentId: string): Promise<MaterialLine[]> {
    const rows = await reading.manager.find(MaterialLineRow, {
      where: { garment_id: garmentId },
      order: { place: 'ASC', id: 'ASC' },
    });
    return rows.map(materialOf);
  },

  async expensesOf(reading: Reading, garmentId: string): Promise<ExpenseLine[]> {
    const rows = await reading.manager.find(ExpenseLineRow, {
      where: { garment_id: garmentId },
      order: { place: 'ASC', id: 'ASC' },
    });
    const currency = rows.length > 0 ? (await studioBook.the(reading)).identity.currency : '';
    return rows.map((row) => expenseOf(row, currency));
  },

  /** @param id a key the line has already, as a line of an extra has */
  async addMaterial(
    writing: Writing,
    garmentId: string,
    line: MaterialWords,
    id = writing.newId(),
  ): Promise<string> {
    const place = (await writing.manager.countBy(MaterialLineRow, { garment_id: garmentId })) + 1;
    await writing.insert(MaterialLineRow, { id, garment_id: garmentId, place, ...materialColumns(line) });
    return id;
  },

  /** @throws Stale when it has changed since `seen` */
  async changeMaterial(writing: Writing, id: string, line: MaterialWords, seen?: number): Promise<void> {
    await writing.update(MaterialLineRow, id, materialColumns(line), seen);
  },

  async removeMaterial(writing: Writing, id: string, seen?: number): Promise<string> {
    return (await writing.remove(MaterialLineRow, id, seen)).name;
  },

  /** @param id a key the line has already, as a line of an extra has */
  async addExpense(
    writing: Writing,
    garmentId: string,
    line: ExpenseWords,
    id = writing.newId(),
  ): Promise<string> {
    const place = (await writing.manager.countBy(ExpenseLineRow, { garment_id: garmentId })) + 1;
    await writing.insert(ExpenseLineRow, { id, garment_id: garmentId, place, ...expenseColumns(line) });
    return id;
  },

  /** @throws Stale when it has changed since `seen` */
  async changeExpense(writing: Writing, id: string, line: ExpenseWords, seen?: number): Promise<void> {
    await writing.update(ExpenseLineRow, id, expenseColumns(line), seen);
  },

  async removeExpense(writing: Writing, id: string, seen?: number): Promise<string> {
    return (await writing.remove(ExpenseLineRow, id, seen)).name;
  },
};

const materialOf = (row: MaterialLineRow): MaterialLine => ({
  id: row.id,
  version: row.version,
  name: row.name,
  quantity: new Decimal(row.quantity),
  unit: row.unit as QuantityUnit,
  unitCost: new Decimal(row.unit_cost),
  wasteShare: new Decimal(row.waste_share),
  wasteOf: row.waste_of as 'net' | 'gross',
  handling: row.handling,
  replacementUnitCost:
    row.replacement_unit_cost === null ? undefined : new Decimal(row.replacement_unit_cost),
  chargeAt: row.charge_at as ChargedAt,
  shownToClient: row.shown_to_client,
  clientWording: row.client_wording,
});

const materialColumns = (
  line: MaterialWords,
): Omit<MaterialLineRow, 'id' | 'version' | 'garment_id' | 'place'> => ({
  name: line.name,
  quantity: line.quantity.toFixed(),
  unit: line.unit,
  unit_cost: line.unitCost.toFixed(),
  waste_share: line.wasteShare.toFixed(),
  waste_of: line.wasteOf,
  handling: line.handling,
  replacement_unit_cost: line.replacementUnitCost?.toFixed() ?? null,
  charge_at: line.chargeAt,
  shown_to_client: line.shownToClient,
  client_wording: line.clientWording,
});

const expenseOf = (row: ExpenseLineRow, currency: string): ExpenseLine => ({
  id: row.id,
  version: row.version,
  name: row.name,
  amount: Money.ofMinor(row.amount, currency),
  shownToClient: row.shown_to_client,
  clientWording: row.client_wording,
});

const expenseColumns = (
  line: ExpenseWords,
): Omit<ExpenseLineRow, 'id' | 'version' | 'garment_id' | 'place'> => ({
  name: line.name,
  amount: line.amount.minor,
  shown_to_client: line.shownToClient,
  client_wording: line.clientWording,
});
