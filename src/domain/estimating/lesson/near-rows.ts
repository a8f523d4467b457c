import { farOff, farOffAmongOthers, mayJudge } from '../far-off.js';
import type { GarmentOfRows } from './history.js';

/** A garment so many half-lives old is left out of the sums by `arrange`. */
const COUNTED = 10;

/**
 * The garments and operations the lesson follows. A garment whose minutes worked ÷ planned lie far off from those of the others of
 * its type is left out whole: the 560 hours of one winter, or a time typed ten-fold on every line. Of the others, an operation is
 * left out whose own ratio lies far off from that of the same kind in the same type, or, where there are few of that kind, from all of
 * the type. Heavy tails make such a one count little; among
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
  const away = new Set(
    grouped(garments, ({ garmentType }) => garmentType).flatMap((ofType) =>
      awayAmong(ofType, ({ rows }) => totalRatio(rows)),
    ),
  );
  const near = away.size > 0 ? garments.filter((garment) => !away.has(garment)) : garments;
  const slips = slipsIn(near);
  if (slips.size === 0) return near;
  return near
    .map((garment) => ({ ...garment, rows: garment.rows.filter((row) => !slips.has(row)) }))
    .filter(({ rows }) => rows.length > 0);
};

type Row = GarmentOfRows['rows'][number];

/** Lines far off from the others of their kind and type; where those are too few to ask, from all others of their type. */
const slipsIn = (garments: readonly GarmentOfRows[]): Set<Row> => {
  const slips = new Set<Row>();
  for (const ofType of grouped(garments, ({ garmentType }) => garmentType)) {
    const rows = ofType.flatMap((garment) => garment.rows);
    const all = rows.map(ratioOf);
    for (const ofKind of grouped(rows, ({ kind }) => kind))
      if (mayJudge(ofKind.length)) for (const row of awayAmong(ofKind, ratioOf)) slips.add(row);
      else for (const row of ofKind) if (farOffAmongOthers(ratioOf(row), all)) slips.add(row);
  }
  return slips;
};

const ratioOf = ({ y }: Row): number => Math.exp(y);

const totalRatio = (rows: GarmentOfRows['rows']): number => {
  let [planned, actual] = [0, 0];
  for (const { y, lnPlanned } of rows) {
    planned += Math.exp(lnPlanned);
    actual += Math.exp(lnPlanned + y);
  }
  return actual / planned;
};

const grouped = <T>(all: readonly T[], key: (one: T) => string): T[][] => {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const name = key(one);
    const group = groups.get(name);
    if (group) group.push(one);
    else groups.set(name, [one]);
  }
  return [...groups.values()];
};

const awayAmong = <T>(group: readonly T[], ratio: (one: T) => number): T[] => {
  const far = farOff(group.map(ratio));
  return group.filter((_, place) => far[place]);
};
