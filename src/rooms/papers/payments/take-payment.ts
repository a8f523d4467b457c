import { Invalid } from '../../../domain/kernel/errors.js';
import { type Part, proposeParts } from '../../../domain/papers/settlement/allocating.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { type PaymentWords, paymentBook } from '../../../storage/books/papers/payment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { moneyInWords } from '../../../web/words/amounts.js';

export const paymentSubject = (id: string): string => `payment/${id}`;

const inWords = async (writing: Writing, { amount }: PaymentWords): Promise<string> =>
  moneyInWords(amount, (await studioBook.the(writing)).identity.locale);

/**
 * Takes a payment as part of another act.
 *
 * @param parts undefined: papers of the commission, then those due first; empty: all of it is held for the client
 * @param first papers to settle before all others
 */
export const takeWithin = async (
  writing: Writing,
  words: PaymentWords,
  parts: readonly Part[] | undefined,
  first: readonly string[] = [],
): Promise<string> => {
  await mustBelong(writing, words);
  const { account } = await clientAccountBook.of(writing, words.clientId);
  const own = account.papers.flatMap(({ id, commissionId }) =>
    words.commissionId !== undefined && commissionId === words.commissionId ? [id] : [],
  );
  return paymentBook.take(
    writing,
    words,
    parts ?? proposeParts(account, words.amount, first.length > 0 ? first : own),
  );
};

/** @throws Invalid when a part does not fit; NotFound when there is no such client */
export const takePayment = (
  unit: UnitOfWork,
  visit: Visit,
  words: PaymentWords,
  parts: readonly Part[] | undefined,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const { name } = await clientBook.one(writing, words.clientId);
    const id = await takeWithin(writing, words, parts);
    writing.says(`Took ${await inWords(writing, words)} from ${name}`, paymentSubject(id));
    return id;
  });

/** @throws Invalid when less is held for the client */
export const giveBack = (unit: UnitOfWork, visit: Visit, words: PaymentWords): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const { name } = await clientBook.one(writing, words.clientId);
    await mustBelong(writing, words);
    const id = await paymentBook.giveBack(writing, words);
    writing.says(`Gave ${await inWords(writing, words)} back to ${name}`, paymentSubject(id));
    return id;
  });

/** Puts a payment's money to other papers. */
export const movePayment = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  parts: readonly Part[],
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const payment = await paymentBook.one(writing, id);
    await paymentBook.move(writing, payment, parts);
    const amount = await inWords(writing, payment);
    writing.says(`Put ${amount} from ${payment.clientName} to other papers`, paymentSubject(id));
    return id;
  });

const mustBelong = async (
  writing: Writing,
  { clientId, commissionId, amount }: PaymentWords,
): Promise<void> => {
  const { identity } = await studioBook.the(writing);
  if (amount.currency !== identity.currency)
    throw Invalid.field('amount', `The books are in ${identity.currency} now.`);
  if (commissionId === undefined) return;
  const theirs = await clientAccountBook.commissionsOf(writing, clientId);
  if (!theirs.some(({ id }) => id === commissionId))
    throw Invalid.field('commission', 'This commission is not one of this client’s.');
};
