import { foldForSearch } from '../clients/client.js';
import type { Garment, MaterialLine } from '../commissions/garment.js';
import { quantityWithWaste } from '../costing/material-cost.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { amountIn, type QuantityUnit } from '../kernel/quantity.js';
import type { StockEntry } from './entry.js';
import type { Material } from './material.js';
import type { OpenPromise } from './promised.js';
import type { SpendFacts } from './spend.js';

/** So much of a material that came for a planned line, and is still ours. */
export type BoughtFor = {
  readonly lineId: string;
  readonly materialId: string;
  readonly quantity: Decimal;
  readonly cost: Money;
};

/** Everything that is known about one garment's materials. */
export type GarmentRecord = {
  readonly garment: Pick<Garment, 'id' | 'name' | 'place'>;
  readonly lines: readonly MaterialLine[];
  readonly entries: readonly StockEntry[];
  readonly promises: readonly OpenPromise[];
  readonly bought: readonly BoughtFor[];
};

/** The facts of one row, in one unit. */
export type SpendRow = SpendFacts & { readonly unit: QuantityUnit; readonly isPlanned: boolean };

type Kind = 'issued' | 'returned' | 'wasted';
type Draft = { -readonly [K in keyof SpendRow]: SpendRow[K] };

const ONE = new Decimal(1);

const draft = (name: string, unit: QuantityUnit, currency: string): Draft => {
  const nothing = { quantity: new Decimal(0), cost: Money.zero(currency) };
  return {
    name,
    unit,
    isPlanned: false,
    planned: new Decimal(0),
    plannedUnitCost: new Decimal(0),
    bought: nothing,
    reserved: new Decimal(0),
    issued: nothing,
    returned: nothing,
    wasted: nothing,
  };
};

/** What an entry adds to: an issue, a return or waste; a reversal takes from what it reverses. */
const bearing = (
  entry: StockEntry,
  byId: ReadonlyMap<string, StockEntry>,
): { kind: Kind; sign: 1 | -1 } | undefined => {
  if (entry.kind === 'issue') return { kind: 'issued', sign: -1 };
  if (entry.kind === 'waste') return { kind: 'wasted', sign: -1 };
  if (entry.kind === 'return' || entry.kind === 'offcut') {
    const isOfWaste = byId.get(entry.of ?? '')?.kind === 'waste';
    return isOfWaste ? { kind: 'wasted', sign: -1 } : { kind: 'returned', sign: 1 };
  }
  const reversed = entry.kind === 'reversal' ? byId.get(entry.of ?? '') : undefined;
  if (!reversed) return undefined;
  // What was issued and taken back stands as a return; anything else is as if it had not been.
  return reversed.kind === 'issue' ? { kind: 'returned', sign: 1 } : bearing(reversed, byId);
};

/**
 * The materials of one garment, planned lines first, then what nobody planned. A movement serves the line it names, else
 * the line of its material's name.
 *
 * @param record quantities in each material's own unit
 * @returns quantities in the unit of their line, costs at book value; an issue that was taken back counts as returned
 * @see test/rooms/cloth-room/spend.test.ts
 */
export const spendRows = (
  record: GarmentRecord,
  materials: ReadonlyMap<string, Material>,
  currency: string,
): SpendRow[] => {
  const rows = new Map<string, Draft>();
  for (const line of record.lines) {
    const planned = quantityWithWaste(line.quantity, line.wasteShare, line.wasteOf);
    const row = { ...draft(line.name, line.unit, currency), planned, isPlanned: true };
    rows.set(line.id, { ...row, plannedUnitCost: line.unitCost });
  }
  // The first of a name, where two lines have the same.
  const byName = new Map([...record.lines].reverse().map(({ id, name }) => [foldForSearch(name), id]));
  const rowFor = (materialId: string, lineId: string | undefined): { row: Draft; unit: QuantityUnit } => {
    const material = materials.get(materialId);
    const unit = material?.unit ?? 'm';
    const fits = (id: string | undefined): Draft | undefined => {
      const row = id === undefined ? undefined : rows.get(id);
      return row && amountIn(ONE, unit, row.unit) ? row : undefined;
    };
    const row = fits(lineId) ?? fits(byName.get(foldForSearch(material?.name ?? '')));
    if (row) return { row, unit };
    const own = rows.get(materialId) ?? draft(material?.name ?? '', unit, currency);
    rows.set(materialId, own);
    return { row: own, unit };
  };
  const more = (one: { quantity: Decimal; cost: Money }, quantity: Decimal, cost: Money) => ({
    quantity: one.quantity.plus(quantity),
    cost: one.cost.plus(cost),
  });
  const byId = new Map(record.entries.map((entry) => [entry.id, entry]));
  for (const entry of record.entries) {
    const to = bearing(entry, byId);
    if (!to) continue;
    const { row, unit } = rowFor(entry.materialId, entry.lineId);
    const amount = amountIn(entry.quantity, unit, row.unit) ?? entry.quantity;
    const cost = to.sign === 1 ? entry.cost : entry.cost.negated();
    row[to.kind] = more(row[to.kind], amount.times(to.sign), cost);
  }
  for (const { materialId, lineId, quantity, cost } of record.bought) {
    const { row, unit } = rowFor(materialId, lineId);
    row.bought = more(row.bought, amountIn(quantity, unit, row.unit) ?? quantity, cost);
  }
  for (const { materialId, lineId, open } of record.promises) {
    const { row, unit } = rowFor(materialId, lineId);
    row.reserved = row.reserved.plus(amountIn(open, unit, row.unit) ?? open);
  }
  return [...rows.values()];
};
