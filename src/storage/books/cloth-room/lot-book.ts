import { In } from 'typeorm';
import type { ChargedAt } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Age, KeptCaution, Lot, Origin } from '../../../domain/stock/lot.js';
import { LotRow } from '../../rows/cloth-room/lot.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';
import { seriesBook } from '../series-book.js';
import { studioBook } from '../studio-book.js';

/** Everything a lot is when it comes in. */
export type LotWords = Omit<Lot, 'id' | 'version' | 'code' | 'left' | 'value'>;
/** What may be said better later; quantities and money only move. */
export type LotRemarks = Pick<
  Lot,
  'width' | 'dyeLot' | 'flaws' | 'replacementUnitCost' | 'chargeAt' | 'chargeReason' | 'cautions'
> &
  Pick<Lot, 'age' | 'believedAge' | 'provenance' | 'smell' | 'shrinkTest'>;
/** What is left of a material and what it is worth; clients' own cloth is counted apart. */
export type OnHand = { readonly left: Decimal; readonly value: Money; readonly custody: Decimal };

/** The book of lots. What is left of one is written by the stock book alone. */
export const lotBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Lot> {
    const row = await reading.manager.findOneBy(LotRow, { id });
    if (!row) throw new NotFound('lot');
    return lotOf(row, await currencyOf(reading));
  },

  /** Oldest first. */
  async ofMaterial(reading: Reading, materialId: string): Promise<Lot[]> {
    return lotsWhere(reading, { material_id: materialId });
  },

  async ofPurchase(reading: Reading, purchaseId: string): Promise<Lot[]> {
    return lotsWhere(reading, { purchase_id: purchaseId });
  },

  /** Lots bought for planned lines. */
  async forLines(reading: Reading, lineIds: readonly string[]): Promise<Lot[]> {
    return lineIds.length === 0 ? [] : lotsWhere(reading, { line_id: In([...lineIds]) });
  },

  async named(reading: Reading, ids: readonly string[]): Promise<Map<string, Lot>> {
    const lots = ids.length === 0 ? [] : await lotsWhere(reading, { id: In([...ids]) });
    return new Map(lots.map((lot) => [lot.id, lot]));
  },

  /** Every lot with something left, oldest first. */
  async withSomethingLeft(reading: Reading): Promise<Lot[]> {
    const query = reading.manager.createQueryBuilder(LotRow, 'lot').where("lot.left_over <> '0'");
    const rows = await query.orderBy('lot.id').getMany();
    const currency = await currencyOf(reading);
    return rows.map((row) => lotOf(row, currency));
  },

  /** What is left of each material. */
  async onHand(reading: Reading): Promise<ReadonlyMap<string, OnHand>> {
    return keptIn(reading, 'what is on hand', async () => addedUp(await this.withSomethingLeft(reading)));
  },

  /** A new lot with nothing in it yet; the stock book brings in what is received. */
  async begin(writing: Writing, words: LotWords): Promise<string> {
    const code = `L-${String(await seriesBook.take(writing, 'lot')).padStart(4, '0')}`;
    const id = writing.newId();
    await writing.insertForGood(LotRow, {
      id,
      code,
      material_id: words.materialId,
      origin: words.origin,
      purchase_id: words.purchaseId ?? null,
      line_id: words.lineId ?? null,
      came_on: words.cameOn,
      received: words.received.toFixed(),
      unit_price: words.unitPrice?.toFixed() ?? null,
      landed: words.landed.minor,
      cost_unknown: words.costUnknown,
      left_over: '0',
      value: 0,
      owner_id: words.ownerId ?? null,
      ...remarkColumns(words),
    });
    return id;
  },

  /** @throws Stale when something moved or was said meanwhile */
  async remark(writing: Writing, id: string, remarks: LotRemarks, seen?: number): Promise<Lot> {
    const row = await writing.update(LotRow, id, remarkColumns(remarks), seen);
    return lotOf(row, await currencyOf(writing));
  },
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const lotsWhere = async (reading: Reading, where: object): Promise<Lot[]> => {
  const rows = await reading.manager.find(LotRow, { where, order: { id: 'ASC' } });
  const currency = await currencyOf(reading);
  return rows.map((row) => lotOf(row, currency));
};

const remarkColumns = (said: LotRemarks) => ({
  width: said.width.shown,
  width_mm: said.width.mm,
  dye_lot: said.dyeLot,
  flaws: said.flaws,
  age: said.age,
  believed_age: said.believedAge,
  provenance: said.provenance,
  replacement_unit_cost: said.replacementUnitCost?.toFixed() ?? null,
  charge_at: said.chargeAt,
  charge_reason: said.chargeReason,
  smell: said.smell,
  shrink_test: said.shrinkTest,
  cautions: JSON.stringify(said.cautions),
});

const decimalOrNone = (text: string | null): Decimal | undefined =>
  text === null ? undefined : new Decimal(text);

const lotOf = (row: LotRow, currency: string): Lot => ({
  id: row.id,
  version: row.version,
  code: row.code,
  materialId: row.material_id,
  origin: row.origin as Origin,
  purchaseId: row.purchase_id ?? undefined,
  lineId: row.line_id ?? undefined,
  cameOn: row.came_on,
  received: new Decimal(row.received),
  unitPrice: decimalOrNone(row.unit_price),
  landed: Money.ofMinor(row.landed, currency),
  costUnknown: row.cost_unknown,
  left: new Decimal(row.left_over),
  value: Money.ofMinor(row.value, currency),
  width: { shown: row.width, mm: row.width_mm },
  dyeLot: row.dye_lot,
  flaws: row.flaws,
  age: row.age as Age,
  believedAge: row.believed_age,
  provenance: row.provenance,
  replacementUnitCost: decimalOrNone(row.replacement_unit_cost),
  chargeAt: row.charge_at as ChargedAt,
  chargeReason: row.charge_reason,
  ownerId: row.owner_id ?? undefined,
  smell: row.smell,
  shrinkTest: row.shrink_test,
  cautions: JSON.parse(row.cautions) as KeptCaution[],
});

/** Lots added up by material; a client's own cloth is counted apart. */
const addedUp = (lots: readonly Lot[]): Map<string, OnHand> => {
  const there = new Map<string, OnHand>();
  for (const lot of lots) {
    const so = there.get(lot.materialId) ?? {
      left: new Decimal(0),
      value: Money.zero(lot.value.currency),
      custody: new Decimal(0),
    };
    const isOurs = lot.origin !== 'custody';
    there.set(lot.materialId, {
      left: isOurs ? so.left.plus(lot.left) : so.left,
      value: so.value.plus(lot.value),
      custody: isOurs ? so.custody : so.custody.plus(lot.left),
    });
  }
  return there;
};
