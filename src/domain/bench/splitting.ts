import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import type { Minutes } from '../kernel/minutes.js';
import { shareByLargestRemainder } from '../kernel/sharing.js';

/**
 * One sitting over several pieces of work: the minutes that were said stay, what is left is shared evenly over the
 * others by largest remainder, so that the parts add up to the sitting.
 *
 * @param total whole minutes of the sitting
 * @param said minutes of each part, undefined where nothing was said; at least one part
 * @returns whole minutes of each part, each at least 1, summing to `total`
 * @throws Invalid when the parts say more or less than the sitting, or a part would get nothing
 * @see test/domain/bench/splitting.test.ts
 */
export const splitSitting = (total: Minutes, said: readonly (Minutes | undefined)[]): Minutes[] => {
  const taken = said.reduce<number>((sum, minutes) => sum + (minutes ?? 0), 0);
  const open = said.filter((minutes) => minutes === undefined).length;
  const left = total - taken;
  if (said.length === 0) throw Invalid.field('parts', 'Say at least one piece of work.');
  if (said.some((minutes) => minutes !== undefined && minutes < 1))
    throw Invalid.field('parts', 'Each part takes at least one minute.');
  if (open === 0 && left !== 0)
    throw Invalid.field(
      'parts',
      `The parts make ${taken} minutes and the sitting was ${total}. Leave one part empty, and it takes what is left.`,
    );
  if (open > 0 && left < open)
    throw Invalid.field('parts', `The sitting was ${total} minutes: nothing is left for the other parts.`);
  const shares =
    open > 0
      ? shareByLargestRemainder(
          left,
          Array.from({ length: open }, () => new Decimal(1)),
        )
      : [];
  let next = 0;
  return said.map((minutes) => minutes ?? shares[next++] ?? 0);
};
