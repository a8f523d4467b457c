import { mean } from './algebra/moments.js';
import { checkedMinutes, type PastGarment } from './lesson/history.js';

/** A kind of operation that is often done without being planned, or planned without being done. */
export interface Forgotten {
  readonly kind: string;
  /** Times it happened, of so many garments of the type. */
  readonly times: number;
  readonly of: number;
  /** The chance for the next garment: (1 + times) / (10 + of). */
  readonly chance: number;
  /** Minutes it usually takes: the mean on the log scale. */
  readonly minutes: number;
  /** Chance times minutes. */
  readonly expectedMinutes: number;
}

/** Both sides for one garment type. */
export interface LeftOut {
  /** Done but not planned, the dearest first. */
  readonly notPlanned: readonly Forgotten[];
  /** Planned but not done, the dearest first. */
  readonly notDone: readonly Forgotten[];
}

/**
 * What is often forgotten in garments of one type ("inside pockets, 3 of 8 jackets, about 1 h 30"), and what is often
 * planned in vain. Each kind begins at one in ten, as a Beta(1, 9).
 *
 * @param history finished garments; own choices of the maker count only if they were marked for every time
 * @param garmentType the type to look at
 * @returns kinds with at least one occurrence, with chance (0 to 1) and minutes
 * @throws RangeError for minutes that are no minutes
 * @see Gelman et al., "Bayesian Data Analysis", section 2.4; test/reference/estimating/forgotten.test.ts
 */
export const leftOut = (history: readonly PastGarment[], garmentType: string): LeftOut => {
  const garments = history.filter((garment) => garment.garmentType === garmentType);
  const [notPlanned, notDone] = [new Map<string, number[]>(), new Map<string, number[]>()];
  for (const { operations } of garments) {
    const sums = new Map<string, { planned: number; actual: number }>();
    for (const { kind, plannedMinutes, actualMinutes } of operations) {
      const sum = sums.get(kind) ?? { planned: 0, actual: 0 };
      sum.planned += checkedMinutes(plannedMinutes, 'Planned time');
      sum.actual += checkedMinutes(actualMinutes, 'Time worked');
      sums.set(kind, sum);
    }
    for (const [kind, { planned, actual }] of sums) {
      if (planned === 0 && actual > 0) notPlanned.set(kind, [...(notPlanned.get(kind) ?? []), actual]);
      if (actual === 0 && planned > 0) notDone.set(kind, [...(notDone.get(kind) ?? []), planned]);
    }
  }
  const told = (found: ReadonlyMap<string, number[]>): Forgotten[] =>
    [...found]
      .map(([kind, taken]) => {
        const minutes = Math.exp(mean(taken.map((value) => Math.log(value))));
        const chance = (1 + taken.length) / (10 + garments.length);
        const expectedMinutes = chance * minutes;
        return { kind, times: taken.length, of: garments.length, chance, minutes, expectedMinutes };
      })
      .sort((a, b) => b.expectedMinutes - a.expectedMinutes || (a.kind < b.kind ? -1 : 1));
  return { notPlanned: told(notPlanned), notDone: told(notDone) };
};
