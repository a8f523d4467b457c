import { dateIn } from '../../../domain/kernel/calendar-date.js';
import { Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { landedCost } from '../../../domain/stock/landed-cost.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Supplier } from '../../../domain/stock/material.js';
import { type AcceptedLine, acceptedLines } from '../../../storage/books/cloth-room/accepted-lines.js';
import { type LotWords, lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { type Purchase, purchaseBook } from '../../../storage/books/cloth-room/purchase-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { stockBook } from '../../../storage/books/cloth-room/stock-book.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { paidOutBook, purchaseSubject } from '../../../storage/books/money-out/paid-out-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { countInWords } from '../../../web/words/counts.js';
import { cautionsOn } from '../lots/old-cautions.js';
import type { LineSaid, PurchaseSaid } from './purchase.form.js';

const supplierOf = async (writing: Writing, id: string): Promise<Supplier> => {
  try {
    return await supplierBook.one(writing, id);
  } catch (error) {
    if (!(error instanceof NotFound)) throw error;
    throw Invalid.field('supplierId', 'There is no such supplier.');
  }
};

/** What is shared over the lines: freight, duty, and tax that does not come back. @see IAS 2, paragraph 11 */
const sharedOf = ({ freight, duty, tax, taxRecoverable }: PurchaseSaid): Money =>
  taxRecoverable ? freight.plus(duty) : freight.plus(duty).plus(tax);

const landedLines = (said: PurchaseSaid, currency: string) => {
  const shared = sharedOf(said);
  const isGift = said.lines.every(({ unitPrice }) => unitPrice.isZero());
  if (isGift && !shared.isZero() && said.sharedBy === 'value')
    throw Invalid.field('sharedBy', 'These goods have no value to share by: share by quantity.');
  return landedCost(currency, said.lines, shared, isGift ? 'quantity' : said.sharedBy);
};

const waitingFor = (line: LineSaid, place: number, waiting: readonly AcceptedLine[]) => {
  if (line.lineId === undefined) return undefined;
  const found = waiting.find(({ id }) => id === line.lineId);
  if (!found)
    throw Invalid.field(`lines.${place}.lineId`, 'No accepted garment waits for this. Leave it empty.');
  return found;
};

/**
 * Puts down a delivery: each line becomes a lot at its landed cost, and is promised to the garment it was bought for.
 *
 * @throws Invalid naming each field that cannot be meant; then nothing is kept
 */
export const recordPurchase = (
  unit: UnitOfWork,
  visit: Visit,
  said: PurchaseSaid,
): Promise<Done<Purchase & { readonly lots: readonly Lot[] }>> =>
  unit.write(visit, async (writing) => {
    const supplier = await supplierOf(writing, said.supplierId);
    const { currency, zone } = (await studioBook.the(writing)).identity;
    if (said.paidOn && said.paidOn > dateIn(writing.at, zone))
      throw Invalid.field('paidOn', 'This day is still to come. Leave it empty until it is paid.');
    const landed = landedLines(said, currency);
    const waiting = said.lines.some(({ lineId }) => lineId) ? await acceptedLines(writing) : [];
    const purchaseId = await purchaseBook.add(writing, {
      ...said,
      goods: Money.sum(
        landed.map(({ goods }) => goods),
        currency,
      ),
    });
    await writing.seal(`supplier/${supplier.id}`);
    if (said.paidOn) await paidOutBook.pay(writing, purchaseSubject(purchaseId), said.paidOn, '');
    for (const [place, line] of said.lines.entries()) {
      const material = await materialBook.one(writing, line.materialId);
      const cost = landed[place]?.landedTotal ?? Money.zero(currency);
      const planned = waitingFor(line, place, waiting);
      const told = { ...BOUGHT, age: line.age, flaws: line.flaws };
      const words: LotWords = {
        ...told,
        materialId: line.materialId,
        purchaseId,
        lineId: line.lineId,
        cameOn: said.boughtOn,
        received: line.quantity,
        unitPrice: line.unitPrice,
        landed: cost,
        width: line.width.shown ? line.width : material.width,
        dyeLot: line.dyeLot,
        cautions: await cautionsOn(material, told),
      };
      const { lotId } = await stockBook.bringIn(writing, words, {
        kind: 'bought',
        on: said.boughtOn,
        reason: said.paperNumber,
        purchaseId,
      });
      if (planned)
        await reservationBook.add(writing, {
          materialId: material.id,
          // Where deliveries flow together, no one piece is promised.
          lotId: material.method === 'lot' ? lotId : undefined,
          commissionId: planned.commissionId,
          garmentId: planned.garmentId,
          lineId: planned.id,
          quantity: line.quantity,
          note: 'bought for it',
        });
    }
    writing.says(
      `Bought ${countInWords(said.lines.length, 'line')} from ${supplier.name}`,
      `purchase/${purchaseId}`,
    );
    const purchase = await purchaseBook.one(writing, purchaseId);
    return { ...purchase, lots: await lotBook.ofPurchase(writing, purchaseId) };
  });

const BOUGHT = {
  origin: 'bought',
  costUnknown: false,
  believedAge: '',
  provenance: '',
  replacementUnitCost: undefined,
  chargeAt: 'replacement',
  chargeReason: '',
  ownerId: undefined,
  smell: '',
  shrinkTest: '',
} as const;
