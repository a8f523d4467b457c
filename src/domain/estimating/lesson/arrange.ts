import type { GarmentOfRows } from './history.js';
import type { Belief } from './starting-values.js';

/** Positions in every garment's support before its kinds and pairs: mean, type, size, repeat, change. */
export const MEAN = 0;
export const TYPE = 1;
export const SIZE = 2;
export const AGAIN = 3;
export const CHANGE = 4;

/** At most so many kinds get an effect of their own; rarer ones are pooled, so that any trade's records can be read. */
const MOST_KINDS = 160;
/** Beyond so many pairs of type and kind, those seen least get no effect of their own: the price is a little more doubt. */
const MOST_PAIRS = 300;
/** A garment that counts less than this (ten half-lives old) is left out of the sums. */
const FAINTEST = 1e-3;

export interface ArrangedGarment {
  readonly rho: number;
  readonly again: number;
  readonly from: number;
  readonly to: number;
  /** Index of each coefficient this garment touches: global ones first, from `globals` on those of its type. */
  readonly support: Int32Array;
}

export interface ArrangedType {
  readonly garmentType: string;
  readonly garments: ArrangedGarment[];
  /** Kinds that have an effect of their own within this type; the k-th has local index k + 1, the type itself 0. */
  readonly pairs: number[];
  readonly pairOf: Map<number, number>;
  count: number;
}

/** The rows sorted by type and garment, with the places of their coefficients. */
export interface Arranged {
  readonly kinds: readonly { kind: string; rows: number; meanLn: number }[];
  readonly types: readonly ArrangedType[];
  /** 1 + kinds + 3: the coefficients that every type shares. */
  readonly globals: number;
  readonly garments: number;
  readonly rows: number;
  readonly y: Float64Array;
  readonly size: Float64Array;
  readonly change: Float64Array;
  /** Kind of each row; the number of kinds stands for the pooled rare ones. */
  readonly kind: Int32Array;
  readonly atKind: Int32Array;
  readonly atPair: Int32Array;
}

const countKinds = (garments: readonly GarmentOfRows[]) => {
  const seen = new Map<string, { kind: string; rows: number; sum: number }>();
  for (const garment of garments)
    for (const row of garment.rows) {
      const entry = seen.get(row.kind) ?? { kind: row.kind, rows: 0, sum: 0 };
      entry.rows += 1;
      entry.sum += row.lnPlanned;
      seen.set(row.kind, entry);
    }
  return [...seen.values()]
    .sort((a, b) => b.rows - a.rows || (a.kind < b.kind ? -1 : 1))
    .slice(0, MOST_KINDS)
    .map(({ kind, rows, sum }) => ({ kind, rows, meanLn: sum / rows }));
};

const pairKey = (garmentType: string, kind: string) => JSON.stringify([garmentType, kind]);

/** Pairs seen often enough for an effect of their own. */
const ownPairs = (garments: readonly GarmentOfRows[]): Set<string> => {
  const seen = new Map<string, number>();
  for (const garment of garments)
    for (const row of garment.rows) {
      const key = pairKey(garment.garmentType, row.kind);
      seen.set(key, (seen.get(key) ?? 0) + 1);
    }
  let least = 1;
  let kept = [...seen];
  while (kept.length > (least === 1 ? MOST_PAIRS : 3 * MOST_PAIRS)) {
    least += 1;
    kept = kept.filter(([, count]) => count >= least);
  }
  return new Set(kept.map(([key]) => key));
};

/**
 * Sorts the rows by type and garment and gives every coefficient its place.
 *
 * @param all garments, oldest first
 * @param belief gives the half-life after which a garment counts half
 * @returns the arranged rows
 */
export const arrange = (all: readonly GarmentOfRows[], belief: Belief): Arranged => {
  const weight = (index: number) => 2 ** (-(all.length - 1 - index) / belief.halfLife);
  const first = all.findIndex((_, index) => weight(index) >= FAINTEST);
  const kept = first < 0 ? [] : all.slice(first);
  const kinds = countKinds(kept);
  const kindAt = new Map(kinds.map(({ kind }, index) => [kind, index]));
  const pairs = ownPairs(kept);
  const globals = 1 + kinds.length + 3;
  const byType = new Map<string, { type: ArrangedType; members: number[] }>();
  for (const [index, garment] of kept.entries()) {
    const entry = byType.get(garment.garmentType) ?? {
      type: { garmentType: garment.garmentType, garments: [], pairs: [], pairOf: new Map(), count: 0 },
      members: [] as number[],
    };
    entry.members.push(index);
    entry.type.count += 1;
    byType.set(garment.garmentType, entry);
  }
  const rows = kept.reduce((sum, garment) => sum + garment.rows.length, 0);
  const [y, size, change] = [new Float64Array(rows), new Float64Array(rows), new Float64Array(rows)];
  const [kind, atKind, atPair] = [new Int32Array(rows), new Int32Array(rows), new Int32Array(rows)];
  let at = 0;
  for (const { type, members } of byType.values()) {
    for (const index of members) {
      const garment = kept[index]!;
      const from = at;
      const support = [0, globals, globals - 3, globals - 2, globals - 1];
      const place = new Map<number, number>();
      const placed = (coefficient: number): number => {
        const known = place.get(coefficient) ?? support.push(coefficient) - 1;
        place.set(coefficient, known);
        return known;
      };
      for (const row of garment.rows) {
        const k = kindAt.get(row.kind) ?? kinds.length;
        y[at] = row.y;
        change[at] = row.change;
        kind[at] = k;
        size[at] = k < kinds.length ? row.lnPlanned - kinds[k]!.meanLn : 0;
        atKind[at] = k < kinds.length ? placed(1 + k) : -1;
        const own = k < kinds.length && pairs.has(pairKey(garment.garmentType, row.kind));
        if (own && !type.pairOf.has(k)) type.pairOf.set(k, type.pairs.push(k));
        atPair[at] = own ? placed(globals + type.pairOf.get(k)!) : -1;
        at += 1;
      }
      const rho = weight(first + index);
      type.garments.push({ rho, again: garment.again, from, to: at, support: Int32Array.from(support) });
    }
  }
  const types = [...byType.values()].map(({ type }) => type);
  return { kinds, types, globals, garments: kept.length, rows, y, size, change, kind, atKind, atPair };
};
