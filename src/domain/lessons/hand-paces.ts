import { farOff, near } from '../estimating/far-off.js';
import { trueHours } from '../estimating/true-hours.js';
import { handStitching } from '../making/hand-stitching.js';
import type { Operation } from '../making/operation.js';
import type { ClosedGarment, SewnSeam } from './closed-garment.js';

/**
 * The seam of an operation as it is planned: length and stitches of one × how many there are.
 *
 * @returns whole millimetres and stitches, half away from zero; undefined where its minutes were not reckoned from stitches
 * @see test/domain/lessons/hand-paces.test.ts
 */
export const sewnSeam = ({ handStitch, driver, quantity }: Operation): SewnSeam | undefined => {
  if (!handStitch) return undefined;
  const times = driver === 'once' ? 1 : quantity;
  const whole = {
    lengthMm: handStitch.lengthMm.times(times).round().toNumber(),
    stitches: handStitching(handStitch).stitches.times(times).round().toNumber(),
  };
  return whole.stitches > 0 ? whole : undefined;
};

/** So many garments are told one by one. */
const NEWEST = 100;

/** How quickly one kind of hand work goes, threading and turning the work included. */
export type HandPace = {
  readonly kind: string;
  /** As the newest garment names it. */
  readonly name: string;
  readonly garments: number;
  /** Stitches an hour in each of the newest 100 of these garments, oldest first; one far off from the others does not move the typical pace. */
  readonly ofEach: readonly { readonly pace: number; readonly isFarOff: boolean }[];
  /** Stitches an hour. */
  readonly typical: number;
  readonly low80: number;
  readonly high80: number;
  /** Centimetres an hour at the typical pace and the density these seams had together. */
  readonly cmAnHour: number;
};

/**
 * The pace of each kind of hand stitch: stitches ÷ hours of each closed garment, by the closed form of true hours without a guess.
 * Time is what the operation took, own error left out, so threading is in it; a garment far off from the others is left out.
 *
 * @param closed closed garments of any type, oldest first
 * @returns stitches and centimetres an hour, unrounded, the kinds known from most garments first
 * @see trueHours; test/domain/lessons/hand-paces.test.ts
 */
export const handPaces = (closed: readonly ClosedGarment[]): HandPace[] => {
  const found = new Map<string, { name: string; paces: number[]; mm: number; stitches: number }>();
  for (const { operations } of closed) {
    const inGarment = new Map<string, { name: string; minutes: number; mm: number; stitches: number }>();
    for (const { kind, name, mode, actualMinutes, seam } of operations) {
      if (!seam || mode !== 'hand' || actualMinutes === 0) continue;
      const before = inGarment.get(kind) ?? { minutes: 0, mm: 0, stitches: 0 };
      inGarment.set(kind, {
        name,
        minutes: before.minutes + actualMinutes,
        mm: before.mm + seam.lengthMm,
        stitches: before.stitches + seam.stitches,
      });
    }
    for (const [kind, { name, minutes, mm, stitches }] of inGarment) {
      const before = found.get(kind) ?? { paces: [], mm: 0, stitches: 0 };
      found.set(kind, {
        name,
        paces: [...before.paces, (stitches * 60) / minutes],
        mm: before.mm + mm,
        stitches: before.stitches + stitches,
      });
    }
  }
  return [...found]
    .map(([kind, { name, paces, mm, stitches }]) => {
      const { middle, low80, high80 } = trueHours({ hours: near(paces) }).typical;
      const away = farOff(paces);
      return {
        ofEach: paces.map((pace, place) => ({ pace, isFarOff: away[place] ?? false })).slice(-NEWEST),
        ...{ kind, name, garments: paces.length, typical: middle, low80, high80 },
        cmAnHour: (middle * mm) / stitches / 10,
      };
    })
    .sort((a, b) => b.garments - a.garments || (a.kind < b.kind ? -1 : 1));
};
