import { Decimal } from '../../../domain/kernel/decimal.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { ENTRY_WORDS, type StockEntry } from '../../../domain/stock/entry.js';
import type { Lot } from '../../../domain/stock/lot.js';
import { offcutQuantity } from '../../../domain/stock/offcut.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { stockBook } from '../../../storage/books/cloth-room/stock-book.js';
import { paidOutBook } from '../../../storage/books/money-out/paid-out-book.js';
import { sentBackSubject } from '../../../storage/books/money-out/supplier-credits.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { inWords } from '../stock-fields.js';
import type { OffcutSaid } from './movement.form.js';

type ReturnSaid = { readonly quantity: Decimal; readonly reason: string; readonly on: string };

const subjectOf = ({ commissionId, garmentId, materialId }: StockEntry): string =>
  commissionId && garmentId ? `commission/${commissionId}/garment/${garmentId}` : `material/${materialId}`;

/** @throws Invalid with code `shortfall` when more comes back than is out */
export const bringBack = (
  unit: UnitOfWork,
  visit: Visit,
  entryId: string,
  said: ReturnSaid,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const issue = await entryBook.one(writing, entryId);
    const { name, unit: counted } = await materialBook.one(writing, issue.materialId);
    const id = await stockBook.giveBack(writing, issue, said.quantity, {
      kind: 'return',
      on: said.on,
      reason: said.reason,
    });
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(`${inWords(said.quantity, counted, locale)} of ${name} came back`, subjectOf(issue));
    return id;
  });

const cutFrom = async (writing: Writing, issue: StockEntry): Promise<Lot> => {
  const [part] = issue.parts;
  if (!part) throw new Conflict('Nothing was cut by this movement.', 'not-issued');
  return lotBook.one(writing, part.lotId);
};

/**
 * Keeps an offcut: a lot of its own, as long as it is, worth its share of what the garment had.
 *
 * @throws Invalid when it is more than is still out, or wider than the cloth
 */
export const keepOffcut = (
  unit: UnitOfWork,
  visit: Visit,
  entryId: string,
  said: OffcutSaid,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const issue = await entryBook.one(writing, entryId);
    const material = await materialBook.one(writing, issue.materialId);
    const from = await cutFrom(writing, issue);
    const full = from.width.mm || material.width.mm;
    if (said.width.mm && !full)
      throw Invalid.field('width', 'Nobody measured the cloth’s own width: measure it on its lot first.');
    const quantity = offcutQuantity(
      said.length,
      said.width.mm ? new Decimal(said.width.mm) : undefined,
      full ? new Decimal(full) : undefined,
    );
    const lotId = await stockBook.keepOffcut(
      writing,
      issue,
      quantity,
      {
        ...from,
        origin: from.origin === 'custody' ? 'custody' : 'offcut',
        purchaseId: undefined,
        lineId: undefined,
        cameOn: said.on,
        received: said.length,
        unitPrice: undefined,
        width: said.width.shown ? said.width : from.width,
        flaws: said.flaws,
        provenance: `left from ${issue.garmentName || 'waste'}, cut from ${from.code}`,
      },
      { kind: 'offcut', on: said.on, reason: '' },
    );
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(
      `Kept an offcut of ${inWords(said.length, material.unit, locale)} of ${material.name}`,
      subjectOf(issue),
    );
    return lotId;
  });

/** The supplier's credit for what was sent back goes with the movement, so it must not be settled. @throws Conflict */
const giveUpCredit = async (writing: Writing, entryId: string): Promise<void> => {
  const about = sentBackSubject(entryId);
  if ((await paidOutBook.of(writing, [about])).has(about))
    throw new Conflict(
      'The supplier’s credit for this is marked as settled. Say first, under money out, that it was not settled after all.',
      'credit-settled',
    );
  await writing.seal(about);
};

/** @throws Conflict when it cannot simply be reversed, or is a return to a supplier whose credit is settled */
export const reverseMovement = (
  unit: UnitOfWork,
  visit: Visit,
  entryId: string,
  said: { readonly reason: string; readonly on: string },
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const entry = await entryBook.one(writing, entryId);
    const { name } = await materialBook.one(writing, entry.materialId);
    if (entry.kind === 'sent-back') await giveUpCredit(writing, entryId);
    const id = await stockBook.reverse(writing, entry, { ...said, kind: 'reversal' });
    writing.says(
      `Reversed a movement of ${name}: ${ENTRY_WORDS[entry.kind].toLowerCase()}`,
      subjectOf(entry),
    );
    return id;
  });
