import type { Garment } from '../../../domain/commissions/garment.js';
import { Quantity } from '../../../domain/kernel/quantity.js';
import { commissionBalance } from '../../../domain/papers/settlement/account.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { quantityInWords } from '../../../web/words/cloth.js';

export type BeforeHandOver = {
  /** What is open on the commission, in words. */
  readonly balance: string;
  /** What the client still owes on it; none where nothing is owed. */
  readonly owed: string;
  /** Care of each material that went into it, a line each. */
  readonly care: string;
  /** Pieces that were kept of its cloth, a line each. */
  readonly remnants: string;
};

/** What is known before a garment is handed over: what is open, how to care for it, what was left of its cloth. */
export const beforeHandOver = async (reading: Reading, garment: Garment): Promise<BeforeHandOver> => {
  const { locale } = (await studioBook.the(reading)).identity;
  const entries = (await entryBook.ofCommission(reading, garment.commissionId)).filter(
    ({ garmentId }) => garmentId === garment.id,
  );
  const materials = await materialBook.all(reading);
  const used = new Set(entries.filter(({ kind }) => kind === 'issue').map(({ materialId }) => materialId));
  const care = [...used].flatMap((id) => {
    const material = materials.get(id);
    return material?.care ? [`${material.name}: ${material.care}`] : [];
  });
  const remnants = entries
    .filter(({ kind }) => kind === 'offcut')
    .flatMap(({ materialId, quantity }) => {
      const material = materials.get(materialId);
      return material
        ? [`${material.name}, ${quantityInWords(new Quantity(quantity.abs(), material.unit), locale)}`]
        : [];
    });
  return {
    ...(await balanceOf(reading, garment)),
    care: care.join('\n'),
    remnants: remnants.join('\n'),
  };
};

const balanceOf = async (
  reading: Reading,
  { commissionId }: Garment,
): Promise<Pick<BeforeHandOver, 'balance' | 'owed'>> => {
  const { identity } = await studioBook.the(reading);
  const { payerId } = await commissionBook.one(reading, commissionId);
  const { account, clientName } = await clientAccountBook.of(reading, payerId);
  const papers = account.papers.filter((paper) => paper.commissionId === commissionId);
  const payments = account.payments.filter((payment) => payment.commissionId === commissionId);
  if (papers.length === 0 && payments.length === 0)
    return { balance: 'No invoice of this commission has gone out yet.', owed: '' };
  const balance = commissionBalance(account, commissionId, identity.currency);
  if (balance.isZero()) return { balance: 'Nothing is open on the invoices of this commission.', owed: '' };
  const amount = moneyInWords(balance.isNegative() ? balance.negated() : balance, identity.locale);
  return balance.isNegative()
    ? { balance: `${amount} is held for ${clientName} on this commission.`, owed: '' }
    : { balance: `${clientName} still owes ${amount} on this commission.`, owed: amount };
};
