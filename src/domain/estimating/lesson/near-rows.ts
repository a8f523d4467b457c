import { farOff } from '../far-off.js';
import type { GarmentOfRows } from './history.js';

/** A garment so many half-lives old is left out of the sums by `arrange`. */
const COUNTED = 10;

/**
 * The garments and operations the lesson follows. A garment whose minutes worked ÷ planned lie far off from those of the others of
 * its type is left out whole: the 560 hours of one winter, or a time typed ten-fold on every line. Of the others, an operation is
 * left out whose own ratio lies far off from that of the same kind in the same type. Heavy tails make such a one count little; among
 * few garments little is still too much, because one garment's operations share its effect. Nothing is deleted: the closed garment
 * keeps its minutes, and follows again once they are corrected.
 *
 * @param all rows of finished garments, oldest first
 * @param halfLife after how many garments one counts half: the newest 10 half-lives are judged, among themselves; earlier ones, which
 *   count no more, pass as they are
 * @returns the same garments in the same order without those far off; the very same list where none is
 * @see farOff; test/domain/estimating/far-off.test.ts
 */
export const nearRows = (all: readonly GarmentOfRows[], halfLife: number): readonly GarmentOfRows[] => {
  const earlier = Math.max(0, all.length - COUNTED * halfLife);
  const judged = all.slice(earlier);
  const near = nearAmong(judged);
  return near === judged ? all : [...all.slice(0, earlier), ...near];
};

const nearAmong = (garments: readonly GarmentOfRows[]): readonly GarmentOfRows[] => {
  const away = awayWithin(
    garments,
    ({ garmentType }) => garmentType,
    ({ rows }) => totalRatio(rows),
  );
  const near = away.size > 0 ? garments.filter((garment) => !away.has(garment)) : garments;
  const lines = near.flatMap(({ garmentType, rows }) => rows.map((row) => ({ garmentType, row })));
  const slips = new Set(
    [
      ...awayWithin(
        lines,
        ({ garmentType, row }) => `${garmentType}\u0000${row.kind}`,
        ({ row }) => Math.exp(row.y),
      ),
    ].map(({ row }) => row),
  );
  if (slips.size === 0) return near;
  return near
    .map((garment) => ({ ...garment, rows: garment.rows.filter((row) => !slips.has(row)) }))
    .filter(({ rows }) => rows.length > 0);
};

const totalRatio = (rows: GarmentOfRows['rows']): number => {
  let [planned, actual] = [0, 0];
  for (const { y, lnPlanned } of rows) {
    planned += Math.exp(lnPlanned);
    actual += Math.exp(lnPlanned + y);
  }
  return actual / planned;
};

/** Those that lie far off from the others with the same key. */
const awayWithin = <T>(all: readonly T[], key: (one: T) => string, ratio: (one: T) => number): Set<T> => {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const name = key(one);
    const group = groups.get(name);
    if (group) group.push(one);
    else groups.set(name, [one]);
  }
  const away = new Set<T>();
  for (const group of groups.values()) {
    const far = farOff(group.map(ratio));
    group.forEach((one, place) => {
      if (far[place]) away.add(one);
    });
  }
  return away;
};
