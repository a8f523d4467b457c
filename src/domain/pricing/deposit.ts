import { Invalid, OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';

/** What a studio asks for before it cuts: a share of the price, or all the materials and a share of the labour. */
export type DepositRule =
  | { readonly kind: 'share-of-price'; readonly share: Share }
  | { readonly kind: 'materials-and-labour'; readonly labourShare: Share };

/** Price of one garment and, in the same terms (net or gross), what of it is materials and what is labour. */
export type DepositGarment = { readonly price: Money; readonly materials?: Money; readonly labour?: Money };

export type Deposit = { readonly amount: Money; readonly byGarment: readonly Money[] };

/**
 * Shares a deposit over garments by their prices, to the last minor unit.
 *
 * @param deposit the whole deposit
 * @param prices price of each garment (or of each garment and tax rate), not negative
 * @returns one part per price, in their order, adding up exactly; by largest remainder, ties go to the first
 * @throws OutOfRange when every price is nought or one is negative
 * @see test/reference/pricing/worked-sums.test.ts WS-11
 */
export const shareDeposit = (deposit: Money, prices: readonly Money[]): Money[] =>
  deposit.allocate(prices.map((price) => price.toDecimal()));

const mustBeShare = (share: Share): Share => {
  if (share.lt(0) || share.gt(1))
    throw new OutOfRange('A deposit is a share from 0 to 1: half of the price is 0.5.');
  return share;
};

/**
 * What deposit a commission asks for, and how much of it belongs to each garment.
 *
 * Share of price: share × Σ prices, rounded once, shared by price. Materials and labour: Σ materials + share × Σ labour,
 * each garment its own materials and its part of the labour, never more than its price.
 *
 * @param rule the studio's rule; shares from 0 to 1
 * @param garments at least one, all net or all gross
 * @returns the deposit, half away from zero, and its parts, which add up exactly
 * @throws Invalid when there is no garment; OutOfRange when a share lies outside 0 to 1
 * @see test/domain/pricing/deposit.test.ts
 */
export const depositOf = (rule: DepositRule, garments: readonly DepositGarment[]): Deposit => {
  const [first] = garments;
  if (!first) throw new Invalid('A deposit needs at least one garment.');
  const { currency } = first.price;
  const nothing = Money.zero(currency);
  const prices = garments.map((garment) => garment.price);
  const total = Money.sum(prices, currency);
  if (total.isZero()) return { amount: nothing, byGarment: garments.map(() => nothing) };
  if (rule.kind === 'share-of-price') {
    const amount = total.timesRounded(mustBeShare(rule.share));
    return { amount, byGarment: shareDeposit(amount, prices) };
  }
  const labours = garments.map((garment) => garment.labour ?? nothing);
  const allLabour = Money.sum(labours, currency);
  const share = allLabour.timesRounded(mustBeShare(rule.labourShare));
  const parts = allLabour.isZero() ? labours : share.allocate(labours.map((labour) => labour.toDecimal()));
  const byGarment = garments.map((garment, index) => {
    const part = (garment.materials ?? nothing).plus(parts[index] ?? nothing);
    return part.compare(garment.price) > 0 ? garment.price : part;
  });
  return { amount: Money.sum(byGarment, currency), byGarment };
};
