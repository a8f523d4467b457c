import { Conflict, type FieldTrouble, Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Account, Allocated, PaymentStanding } from './account.js';
import { allocatePayment } from './balance.js';

/** What of an amount goes to which paper. */
export type Part = { readonly to: string; readonly amount: Money };

/**
 * Proposes what an amount goes to: papers of the commission first where one is named, then those due first.
 *
 * @param amount above nought
 * @param first keys of papers to settle before all others, in this order
 * @returns parts, none above what is open; what is over stays with the client
 * @throws Invalid when the amount is nought or less
 */
export const proposeParts = (account: Account, amount: Money, first: readonly string[] = []): Part[] => {
  const open = account.papers.filter((paper) => paper.open.minor > 0);
  const named = first.flatMap((id) => open.filter((paper) => paper.id === id));
  const parts: Part[] = [];
  let left = amount;
  for (const { id, open: asked } of named) {
    if (left.isZero()) return parts;
    const part = asked.compare(left) < 0 ? asked : left;
    parts.push({ to: id, amount: part });
    left = left.minus(part);
  }
  if (left.isZero() && parts.length > 0) return parts;
  const others = open.filter(({ id }) => !first.includes(id));
  // The key stands in the place of the number: numbers are for people.
  const rest = allocatePayment(
    left,
    others.map(({ id, due, open: asked }) => ({ number: id, due, open: asked })),
  );
  return [...parts, ...rest.parts.map(({ number, amount: part }) => ({ to: number, amount: part }))];
};

/**
 * Are these parts allowed? Each goes once to a paper of this client that is open for so much, and they are not more than
 * there is.
 *
 * @param available what may be given out
 * @throws Invalid naming each part at fault by its place, `parts.0.amount`
 */
export const mustFit = (account: Account, available: Money, parts: readonly Part[]): void => {
  const troubles: FieldTrouble[] = [];
  const seen = new Set<string>();
  for (const [place, { to, amount }] of parts.entries()) {
    const field = `parts.${place}.amount`;
    const paper = account.papers.find(({ id }) => id === to);
    if (!paper) troubles.push({ field, text: 'This paper is not one of this client’s.' });
    else if (seen.has(to)) troubles.push({ field, text: `${paper.number} stands here twice.` });
    else if (amount.minor <= 0) troubles.push({ field, text: 'A part is more than nothing.' });
    else if (amount.compare(paper.open) > 0)
      troubles.push({
        field,
        text:
          paper.open.minor > 0
            ? `Only ${paper.open} is open on ${paper.number}.`
            : `Nothing is open on ${paper.number}.`,
      });
    seen.add(to);
  }
  const [first] = troubles;
  if (first) throw new Invalid(troubles.length === 1 ? first.text : 'Some parts cannot be so.', troubles);
  const sum = Money.sum(
    parts.map(({ amount }) => amount),
    available.currency,
  );
  if (sum.compare(available) > 0)
    throw Invalid.field('parts', `These parts come to ${sum}, and there is ${available}.`);
};

/**
 * What a refund is taken from: first what was credited after it was paid, then what is left of payments, oldest first. So a
 * refund never makes a debt.
 *
 * @param refund the key the refund will have
 * @returns entries that come to the amount exactly
 * @throws Invalid when less is held for the client
 * @see test/domain/papers/settlement/account.test.ts
 */
export const refundEntries = (account: Account, refund: string, amount: Money): Allocated[] => {
  if (amount.minor <= 0) throw Invalid.field('amount', 'Give back more than nothing.');
  const entries: Allocated[] = [];
  let left = amount;
  const take = (there: Money, entry: (part: Money) => Allocated): void => {
    if (left.isZero() || there.minor <= 0) return;
    const part = there.compare(left) < 0 ? there : left;
    entries.push(entry(part));
    left = left.minus(part);
  };
  for (const { id, open } of account.papers)
    take(open.negated(), (part) => ({ from: refund, to: id, amount: part }));
  for (const { id, kind, left: over } of account.payments)
    if (kind === 'payment') take(over, (part) => ({ from: id, to: refund, amount: part }));
  if (!left.isZero())
    throw Invalid.field(
      'amount',
      account.credit.isZero()
        ? 'Nothing is held for this client, so there is nothing to give back.'
        : `Only ${account.credit} is held for this client.`,
    );
  return entries;
};

/**
 * The entries that take back everything that money went to, or that was covered by it.
 *
 * @param id of a payment or refund
 */
export const takenBack = (id: string, allocations: readonly Allocated[]): Allocated[] => {
  const sums = new Map<string, Allocated>();
  for (const entry of allocations) {
    if (entry.from !== id && entry.to !== id) continue;
    const key = `${entry.from} ${entry.to}`;
    const before = sums.get(key);
    sums.set(key, { ...entry, amount: before ? before.amount.plus(entry.amount) : entry.amount });
  }
  return [...sums.values()]
    .filter(({ amount }) => !amount.isZero())
    .map((entry) => ({ ...entry, amount: entry.amount.negated() }));
};

/**
 * The entries that move a payment's money: what it went to is taken back, the new parts are put down. What went to refunds
 * stays there.
 *
 * @param payment standing, not reversed
 * @param allocations everything allocated so far
 * @throws Conflict when it was reversed; Invalid when a part does not fit
 */
export const movedEntries = (
  account: Account,
  payment: PaymentStanding,
  allocations: readonly Allocated[],
  parts: readonly Part[],
): Allocated[] => {
  if (payment.reversedOn !== undefined || payment.kind !== 'payment')
    throw new Conflict('Only a payment that stands can be put to other papers.', 'not-standing');
  const papers = new Set(account.papers.map(({ id }) => id));
  const back = takenBack(payment.id, allocations).filter(
    ({ from, to }) => from === payment.id && papers.has(to),
  );
  const freed = back.reduce((sum, { amount }) => sum.minus(amount), Money.zero(payment.amount.currency));
  const loosened: Account = {
    ...account,
    papers: account.papers.map((paper) => ({
      ...paper,
      open: back
        .filter(({ to }) => to === paper.id)
        .reduce((open, { amount }) => open.minus(amount), paper.open),
    })),
  };
  mustFit(loosened, payment.left.plus(freed), parts);
  return [...back, ...parts.map(({ to, amount }) => ({ from: payment.id, to, amount }))];
};

/** The payments a commission's paper may take off: those put down for it, oldest first, then those put down for none. */
const heldPayments = ({ payments }: Account, commissionId: string | undefined): PaymentStanding[] => {
  const standing = payments.filter(
    ({ kind, left, reversedOn }) => kind === 'payment' && left.minor > 0 && reversedOn === undefined,
  );
  const none = standing.filter((one) => one.commissionId === undefined);
  if (commissionId === undefined) return none;
  return [...standing.filter((one) => one.commissionId === commissionId), ...none];
};

/**
 * What is held for a client and may come off a paper of a commission as paid before (BT-113): what went to no paper yet of
 * payments put down for that commission, or for none. Another commission's money is not touched.
 */
export const heldFor = (account: Account, commissionId: string | undefined): Money =>
  Money.sum(
    heldPayments(account, commissionId).map(({ left }) => left),
    account.balance.currency,
  );

/**
 * Puts held money to the paper that says it was paid before, so that paper and account agree.
 *
 * @param to the paper, among those of the account
 * @param prepaid BT-113 of the paper; of more than is open on it, what is over stays with the client
 * @returns entries, none nought; undefined when less is held than the paper says
 * @see test/domain/papers/settlement/account.test.ts
 */
export const heldEntries = (
  account: Account,
  to: string,
  commissionId: string | undefined,
  prepaid: Money,
): Allocated[] | undefined => {
  if (heldFor(account, commissionId).compare(prepaid) < 0) return undefined;
  const open = account.papers.find(({ id }) => id === to)?.open ?? Money.zero(prepaid.currency);
  let left = open.compare(prepaid) < 0 ? open : prepaid;
  const entries: Allocated[] = [];
  for (const { id, left: held } of heldPayments(account, commissionId)) {
    if (left.minor <= 0) break;
    const amount = held.compare(left) < 0 ? held : left;
    entries.push({ from: id, to, amount });
    left = left.minus(amount);
  }
  return entries;
};
