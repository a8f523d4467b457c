import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import type { Paper } from '../model/paper.js';

const sameGroup = (
  a: { category: string; rate?: Decimal },
  b: { category: string; rate?: Decimal },
): boolean => a.category === b.category && (a.rate ?? new Decimal(0)).equals(b.rate ?? 0);

/**
 * What each line of a paper comes to with tax, whole-document discounts and rounding included.
 *
 * Each group's base + tax is shared over its lines by their nets, then the amount due is shared over those; both by largest
 * remainder, so the parts add up to the amount due. A line that is not above nought takes no part.
 *
 * @returns one amount per line; all nought when nothing is due
 * @see test/domain/papers/quote.test.ts
 */
export const lineShares = (paper: Paper): Money[] => {
  const due = paper['BG-22']['BT-115'];
  const zero = Money.zero(due.currency);
  const gross: Money[] = paper['BG-25'].map(() => zero);
  for (const group of paper['BG-23']) {
    const mine = paper['BG-25']
      .map((line, index) => ({ line, index }))
      .filter(({ line }) =>
        sameGroup(
          { category: line['BT-151'], rate: line['BT-152'] },
          { category: group['BT-118'], rate: group['BT-119'] },
        ),
      );
    const weights = mine.map(({ line }) => new Decimal(Math.max(line['BT-131'].minor, 0)));
    if (weights.every((weight) => weight.isZero())) continue;
    const parts = group['BT-116'].plus(group['BT-117']).allocate(weights);
    mine.forEach(({ index }, at) => {
      gross[index] = parts[at] ?? zero;
    });
  }
  const weights = gross.map((part) => new Decimal(Math.max(part.minor, 0)));
  if (due.isNegative() || weights.every((weight) => weight.isZero())) return gross.map(() => zero);
  return due.allocate(weights);
};
