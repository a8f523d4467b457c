import type { Garment } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Quantity } from '../../../domain/kernel/quantity.js';
import { commissionBalance } from '../../../domain/papers/settlement/account.js';
import type { StockEntry } from '../../../domain/stock/entry.js';
import type { Material } from '../../../domain/stock/material.js';
import { openPromises } from '../../../domain/stock/promised.js';
import type { Link } from '../../../printing/templates/page-model.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
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
  /** What still hangs on it, in words, with where to settle it. */
  readonly open: readonly { readonly text: string; readonly step: Link }[];
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
    open: [
      ...(await runningOn(reading, garment)),
      ...(await promisedTo(reading, garment, materials, entries, locale)),
    ],
  };
};

/** Clocks that still run on it. */
const runningOn = async (reading: Reading, { id }: Garment): Promise<BeforeHandOver['open']> => {
  const clocks = await clockBook.ofGarment(reading, id);
  const people = new Map((await personBook.all(reading)).map((one) => [one.id, one.name]));
  return clocks.map(({ personId, name }) => ({
    text: `The clock of ${people.get(personId) ?? 'somebody'} still runs on it: ${name}. It goes on after the hand-over until it is stopped.`,
    step: { text: 'Stop it at the bench', href: `/bench?person=${personId}` },
  }));
};

/** Cloth that is still promised to it: nobody else may count on it until it is let go. */
const promisedTo = async (
  reading: Reading,
  garment: Garment,
  materials: ReadonlyMap<string, Material>,
  entries: readonly StockEntry[],
  locale: string,
): Promise<BeforeHandOver['open']> => {
  const promises = (await reservationBook.ofCommissions(reading, [garment.commissionId])).filter(
    ({ garmentId }) => garmentId === garment.id,
  );
  return [...new Set(promises.map(({ materialId }) => materialId))].flatMap((materialId) => {
    const material = materials.get(materialId);
    const open = openPromises(
      promises.filter((one) => one.materialId === materialId),
      entries.filter((one) => one.materialId === materialId),
    ).reduce((sum, one) => sum.plus(one.open), new Decimal(0));
    if (!material || open.lte(0)) return [];
    const quantity = quantityInWords(new Quantity(open, material.unit), locale);
    return [
      {
        text: `${quantity} of ${material.name}, promised to it, were never taken. Take them now if they went into it; if not, let the promise go, so that they are free for others.`,
        step: { text: 'Look at the cloth', href: `/cloth-room/materials/${materialId}` },
      },
    ];
  });
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
