import { seeded } from '../../../src/domain/estimating/chance/draws.js';
import { normalQuantile } from '../../../src/domain/estimating/chance/normal.js';
import { quickStudentQuantile } from '../../../src/domain/estimating/chance/student.js';
import type { PastGarment } from '../../../src/domain/estimating/lesson/history.js';

/** An invented workroom whose true bias, types, kinds, garments and noise are drawn from the model by a seed. */
export const aStudio = (
  seed: number,
  { garments = 60, types = 3, kinds = 15, operations = 12 } = {},
): PastGarment[] => {
  const next = seeded(seed);
  const normal = (spread: number) => spread * normalQuantile((next() * 999_998 + 1) / 1_000_000);
  const many = (count: number, spread: number) => Array.from({ length: count }, () => normal(spread));
  const pick = (count: number) => Math.floor(next() * count);
  const bias = 0.1 + normal(0.25);
  const [ofType, ofKind, ofPair] = [many(types, 0.1), many(kinds, 0.15), many(types * kinds, 0.1)];
  return Array.from({ length: garments }, () => {
    const t = pick(types);
    const shared = bias + ofType[t]! + normal(0.2);
    return {
      garmentType: `t${t}`,
      operations: Array.from({ length: operations }, () => {
        const k = pick(kinds);
        const plannedMinutes = 15 + pick(120);
        const noise = 0.3 * quickStudentQuantile((next() * 9998 + 1) / 10_000, 8);
        const ratio = Math.exp(shared + ofKind[k]! + ofPair[t * kinds + k]! + noise);
        return { kind: `k${k}`, plannedMinutes, actualMinutes: plannedMinutes * ratio };
      }),
    };
  });
};
