import { foldForSearch } from '../../../domain/clients/client.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { grouped } from '../../../domain/stock/grouped.js';
import type { Material } from '../../../domain/stock/material.js';
import { openPromises } from '../../../domain/stock/promised.js';
import { spendOf } from '../../../domain/stock/spend.js';
import { type SpendRow, spendRows } from '../../../domain/stock/spend-rows.js';
import {
  type AcceptedLine,
  acceptedLines,
  quotedUnitCosts,
} from '../../../storage/books/cloth-room/accepted-lines.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { shoppingBook } from '../../../storage/books/cloth-room/shopping-book.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import type { Reading } from '../../../storage/session.js';
import { boughtFor } from '../spend/bought-for.js';

/** One thing to buy for one accepted garment. */
export type ShoppingItem = {
  readonly line: AcceptedLine;
  readonly material: Material | undefined;
  readonly toBuy: Decimal;
  /** The unit cost the accepted quote was worked out with: above it, the margin pays. */
  readonly highest: Decimal;
  readonly isTicked: boolean;
};

export type ShoppingGroup = {
  readonly supplierId: string;
  readonly supplierName: string;
  readonly items: readonly ShoppingItem[];
};

/** Planned − used − promised, or bought and not yet promised: what is still to be had. */
const stillToBuy = (row: SpendRow, currency: string): Decimal => {
  const { toIssue } = spendOf(row, currency);
  const waiting = Decimal.max(
    row.reserved,
    row.bought.quantity.minus(row.issued.quantity).plus(row.returned.quantity),
  );
  return Decimal.max(0, toIssue.minus(Decimal.max(0, waiting)));
};

const rowsOfGarments = async (reading: Reading, lines: readonly AcceptedLine[], currency: string) => {
  const materials = await materialBook.all(reading);
  const commissions = [...new Set(lines.map(({ commissionId }) => commissionId))];
  const promisesOf = groupOf(await reservationBook.ofCommissions(reading, commissions));
  const entriesOf = groupOf(await entryBook.ofCommissions(reading, commissions));
  const bought = await boughtFor(
    reading,
    lines.map(({ id }) => id),
  );
  const boughtOf = grouped(bought, ({ lineId }) => lineId);
  const needs = new Map<string, Decimal>();
  for (const [garmentId, own] of groupOf(lines)) {
    const had = entriesOf.get(garmentId) ?? [];
    const promised = grouped(promisesOf.get(garmentId) ?? [], ({ materialId }) => materialId);
    const record = {
      garment: { id: garmentId, name: '', place: 0 },
      lines: own.map((line) => ({ ...line, ...AS_PLANNED })),
      entries: had,
      promises: [...promised].flatMap(([materialId, promises]) =>
        openPromises(
          promises,
          had.filter((one) => one.materialId === materialId),
        ),
      ),
      bought: own.flatMap(({ id }) => boughtOf.get(id) ?? []),
    };
    const rows = spendRows(record, materials, currency);
    own.forEach((line, place) => {
      const row = rows[place];
      needs.set(line.id, row ? stillToBuy(row, currency) : line.quantity);
    });
  }
  return { materials, needs };
};

const groupOf = <T extends { readonly garmentId: string | undefined }>(all: readonly T[]): Map<string, T[]> =>
  grouped(all, ({ garmentId }) => garmentId ?? '');

/** An accepted line holds its waste already. */
const AS_PLANNED = {
  version: 1,
  wasteShare: new Decimal(0),
  wasteOf: 'net',
  handling: false,
  replacementUnitCost: undefined,
  chargeAt: 'replacement',
  shownToClient: false,
  clientWording: '',
} as const;

/** What is still to be bought for every accepted garment, by supplier; what has no supplier yet comes last. */
export const shoppingList = async (reading: Reading, currency: string): Promise<ShoppingGroup[]> => {
  const lines = await acceptedLines(reading);
  if (lines.length === 0) return [];
  const { materials, needs } = await rowsOfGarments(reading, lines, currency);
  const wanted = lines.filter(({ id }) => needs.get(id)?.gt(0));
  const quoted = await quotedUnitCosts(
    reading,
    wanted.map(({ quoteId }) => quoteId),
  );
  const ticked = await shoppingBook.ticked(reading);
  const byName = new Map([...materials.values()].map((one) => [foldForSearch(one.name), one]));
  const suppliers = new Map((await supplierBook.find(reading)).map(({ id, name }) => [id, name]));
  const groups = new Map<string, ShoppingItem[]>();
  for (const line of wanted) {
    const material = byName.get(foldForSearch(line.name));
    const supplier = material?.supplierId ?? '';
    const item = {
      line,
      material,
      toBuy: needs.get(line.id) ?? line.quantity,
      highest: quoted.get(line.id) ?? line.unitCost,
      isTicked: ticked.has(line.id),
    };
    groups.set(supplier, [...(groups.get(supplier) ?? []), item]);
  }
  return [...groups]
    .map(([supplierId, items]) => ({
      supplierId,
      supplierName: suppliers.get(supplierId) ?? '',
      items: [...items].sort((a, b) => (a.line.dueOn ?? '9999').localeCompare(b.line.dueOn ?? '9999')),
    }))
    .sort(
      (a, b) =>
        Number(a.supplierId === '') - Number(b.supplierId === '') ||
        a.supplierName.localeCompare(b.supplierName),
    );
};
