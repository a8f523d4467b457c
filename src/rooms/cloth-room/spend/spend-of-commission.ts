import type { Commission } from '../../../domain/commissions/commission.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { Money } from '../../../domain/kernel/money.js';
import type { StockEntry } from '../../../domain/stock/entry.js';
import type { KeptCaution, Lot } from '../../../domain/stock/lot.js';
import { openPromises } from '../../../domain/stock/promised.js';
import { type Spend, spendOf } from '../../../domain/stock/spend.js';
import { type SpendRow, spendRows } from '../../../domain/stock/spend-rows.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import { boughtFor } from './bought-for.js';

/** One garment's materials: each row worked out, and the cautions of what it is made of. */
export type GarmentSpend = {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  readonly rows: readonly (Spend & Pick<SpendRow, 'unit' | 'isPlanned'>)[];
  readonly cautions: readonly KeptCaution[];
};

export type CommissionSpend = {
  readonly commission: Commission;
  readonly identity: StudioIdentity;
  readonly garments: readonly GarmentSpend[];
};

const cautionsOf = (entries: readonly StockEntry[], lots: ReadonlyMap<string, Lot>): KeptCaution[] => {
  const used = entries.flatMap(({ parts }) => parts).flatMap(({ lotId }) => lots.get(lotId) ?? []);
  return [...new Map(used.flatMap(({ cautions }) => cautions).map((one) => [one.id, one])).values()];
};

/** Planned against what really happened, garment by garment. @throws NotFound */
export const spendOfCommission = async (reading: Reading, commissionId: string): Promise<CommissionSpend> => {
  const commission = await commissionBook.one(reading, commissionId);
  const { identity } = await studioBook.the(reading);
  const materials = await materialBook.all(reading);
  const entries = await entryBook.ofCommission(reading, commissionId);
  const promises = await reservationBook.ofCommissions(reading, [commissionId]);
  const lots = await lotBook.named(reading, [
    ...new Set(entries.flatMap(({ parts }) => parts.map(({ lotId }) => lotId))),
  ]);
  const present = await garmentBook.ofCommission(reading, commissionId);
  const gone = entries.filter(({ garmentId }) => garmentId && !present.some(({ id }) => id === garmentId));
  const named = [
    ...present,
    // A garment may have been taken out of the commission; what it cost has not.
    ...new Map(gone.map(({ garmentId, garmentName }) => [garmentId, garmentName])),
  ].map((one) => (Array.isArray(one) ? { id: one[0] ?? '', name: `${one[1]}, taken out`, place: 0 } : one));
  const garments = await Promise.all(
    named.map(async ({ id, name, place }): Promise<GarmentSpend> => {
      const lines = await estimateBook.materialsOf(reading, id);
      const own = entries.filter(({ garmentId }) => garmentId === id);
      const open = [...materials.keys()].flatMap((materialId) =>
        openPromises(
          promises.filter((one) => one.garmentId === id && one.materialId === materialId),
          own.filter((one) => one.materialId === materialId),
        ),
      );
      const bought = await boughtFor(
        reading,
        lines.map((line) => line.id),
      );
      const record = { garment: { id, name, place }, lines, entries: own, promises: open, bought };
      const rows = spendRows(record, materials, identity.currency).map((row) => ({
        ...spendOf(row, identity.currency),
        unit: row.unit,
        isPlanned: row.isPlanned,
      }));
      return { id, name, place, rows, cautions: cautionsOf(own, lots) };
    }),
  );
  return { commission, identity, garments };
};

/** What rows come to together. */
export const together = (rows: readonly Spend[], currency: string) => {
  const sum = (of: (row: Spend) => Money | undefined): Money =>
    Money.sum(
      rows.map((row) => of(row) ?? Money.zero(currency)),
      currency,
    );
  return {
    planned: sum((row) => row.plannedCost),
    used: sum((row) => row.usedCost),
    price: sum((row) => row.priceVariance),
    usage: sum((row) => row.usageVariance),
  };
};
