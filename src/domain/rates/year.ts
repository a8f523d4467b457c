import { AWAY_KINDS, type AwayKind } from '../bench/bench-entry.js';
import type { WorkedMinutes } from '../bench/worked.js';
import { Money } from '../kernel/money.js';
import { type Earned, earnedTogether } from '../lessons/earned-by-type.js';
import { MODES, type Mode } from '../making/mode.js';
import { type FrozenReckoning, frozenMoney } from '../reckoning/frozen-reckoning.js';

/** Hours of a year: on garments by mode, own errors among them, and without a garment by kind. Whole minutes. */
export type YearsHours = {
  readonly onGarments: number;
  readonly byMode: readonly { readonly mode: Mode; readonly minutes: number }[];
  /** Among those on garments: what was done again through an own error. */
  readonly ownError: number;
  readonly away: number;
  readonly byKind: readonly { readonly kind: AwayKind; readonly minutes: number }[];
};

/**
 * The hours of a year.
 *
 * @param worked minutes on garments, each in one mode
 * @param away minutes without a garment that stand
 * @returns Σ by mode = on garments; Σ by kind = away
 * @see test/domain/rates/year.test.ts
 */
export const yearsHours = (
  worked: readonly Pick<WorkedMinutes, 'mode' | 'cause' | 'minutes'>[],
  away: readonly { readonly away: AwayKind | undefined; readonly minutes: number }[],
): YearsHours => {
  const sum = (all: readonly { readonly minutes: number }[]): number =>
    all.reduce((total, { minutes }) => total + minutes, 0);
  return {
    onGarments: sum(worked),
    byMode: MODES.map((mode) => ({ mode, minutes: sum(worked.filter((one) => one.mode === mode)) })),
    ownError: sum(worked.filter(({ cause }) => cause === 'own error')),
    away: sum(away),
    byKind: AWAY_KINDS.map((kind) => ({
      kind,
      minutes: sum(away.filter((one) => (one.away ?? 'other') === kind)),
    })),
  };
};

/** What the garments closed in a year came to. */
export type YearsGarments = {
  readonly garments: number;
  /** Closed without a reckoning, or in another currency: not in the sums. */
  readonly without: number;
  readonly price: Money;
  readonly profit: Money;
  readonly materials: Money;
  readonly materialsAtReplacement: Money;
  /** By what an hour earned, best first; types without a minute are left out. */
  readonly byType: readonly (Earned & { readonly typeId: string })[];
};

/**
 * The garments closed in a year, from the reckonings frozen with them.
 *
 * @param closed each with its type; a reckoning may be missing
 * @returns sums to the minor unit; types of equal earnings by name
 * @see earnedTogether; test/domain/rates/year.test.ts
 */
export const yearsGarments = (
  closed: readonly { readonly typeId: string; readonly reckoning: FrozenReckoning | undefined }[],
  currency: string,
): YearsGarments => {
  const told = closed.flatMap(({ typeId, reckoning }) =>
    reckoning?.currency === currency ? [{ typeId, reckoning }] : [],
  );
  const sum = (of: (one: FrozenReckoning) => string): Money =>
    Money.sum(
      told.map(({ reckoning }) => frozenMoney(reckoning, of(reckoning))),
      currency,
    );
  const types = [...new Set(told.map(({ typeId }) => typeId))].sort();
  const byType = types.flatMap((typeId) => {
    const own = told.filter((one) => one.typeId === typeId).map(({ reckoning }) => reckoning);
    const earned = earnedTogether(own, currency);
    return earned ? [{ ...earned, typeId }] : [];
  });
  return {
    garments: closed.length,
    without: closed.length - told.length,
    price: sum(({ price }) => price),
    profit: sum(({ actualProfit }) => actualProfit),
    materials: sum(({ cost }) => cost.materials),
    materialsAtReplacement: sum(({ cost }) => cost.materialsAtReplacement),
    byType: byType.sort((a, b) => b.perHour.minor - a.perHour.minor),
  };
};
