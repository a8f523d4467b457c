import { predict } from '../../dist/domain/estimating/forecast/hours.js';
import { fitLesson } from '../../dist/domain/estimating/lesson/lesson.js';
import { backtest } from '../../dist/domain/estimating/proof/backtest.js';
import { fromTests } from './from-tests.mjs';
import { interleaved, median, quantile, worked } from './measure.mjs';

const OPERATIONS = 12;

/** Fits and predictions on invented workrooms, in processor time; the floor adds up the same rows once. */
export async function measureEstimates() {
  const { aStudio } = await fromTests('test/reference/estimating/studio.ts');
  const of = (rows, types, kinds) =>
    aStudio(20_260_302, { garments: Math.ceil(rows / OPERATIONS), types, kinds, operations: OPERATIONS });
  const [some, many] = [of(2000, 6, 30), of(50_000, 12, 60)];
  const fits = await interleaved(
    {
      some: () => worked(() => fitLesson(some)),
      many: () => worked(() => fitLesson(many)),
      someOnce: () => worked(() => addUp(some)),
      manyOnce: () => worked(() => addUp(many)),
    },
    { rounds: 7, warmUp: 2 },
  );
  const lesson = fitLesson(some);
  const plan = {
    garmentType: 't0',
    operations: Array.from({ length: OPERATIONS }, (_, i) => ({
      kind: `k${i}`,
      mode: 'hand',
      plannedMinutes: 30 + 5 * i,
    })),
  };
  const times = await interleaved(
    { predict: () => worked(() => predict(lesson, plan)), once: () => worked(() => addUp([plan])) },
    { rounds: 2000, warmUp: 500 },
  );
  const underWay = (count) => ({
    garmentType: 't0',
    operations: Array.from({ length: count }, (_, i) => ({
      kind: `k${i % 30}`,
      mode: ['hand', 'machine', 'press'][i % 3],
      plannedMinutes: 30 + 5 * i,
      ...(i < count / 2 ? { finishedMinutes: 33 + 6 * i } : i < count / 2 + 1 ? { soFarMinutes: 20 } : {}),
    })),
  });
  const [dozen, many35] = [underWay(12), underWay(35)];
  const begun = await interleaved(
    {
      dozen: () => worked(() => predict(lesson, dozen)),
      many: () => worked(() => predict(lesson, many35)),
      dozenOnce: () => worked(() => addUp([dozen])),
      manyOnce: () => worked(() => addUp([many35])),
    },
    { rounds: 200, warmUp: 50 },
  );
  const past = of(20_000, 12, 60);
  const proved = worked(() => backtest(past));
  const against = 'adding up the same rows once';
  const p95 = (numbers) => quantile(numbers, 0.95).toFixed(2);
  return [
    {
      what: 'fit of 2,000 rows',
      against,
      ours: median(fits.some),
      floor: median(fits.someOnce),
      within: 150,
      note: `processor time; ${fitLesson(some).sweeps} sweeps, 6 types, 30 kinds; p95 ${p95(fits.some)} ms`,
    },
    {
      what: 'fit of 50,000 rows',
      against,
      ours: median(fits.many),
      floor: median(fits.manyOnce),
      within: 1000,
      note: `processor time; ${fitLesson(many).sweeps} sweeps, 12 types, 60 kinds; p95 ${p95(fits.many)} ms`,
    },
    {
      what: 'prediction of 12 operations',
      against,
      ours: median(times.predict),
      floor: median(times.once),
      within: 1,
      note: `processor time, median of 2000; p95 ${p95(times.predict)} ms`,
    },
    {
      what: 'forecast of 12 operations, half finished, one under way',
      against,
      ours: median(begun.dozen),
      floor: median(begun.dozenOnce),
      within: 5,
      note: `processor time, median of 200; p95 ${p95(begun.dozen)} ms`,
    },
    {
      what: 'forecast of 35 operations, half finished, one under way',
      against,
      ours: median(begun.many),
      floor: median(begun.manyOnce),
      within: 20,
      note: `processor time, median of 200; p95 ${p95(begun.many)} ms`,
    },
    {
      what: 'proof of 20,000 rows, garment after garment',
      against,
      ours: proved,
      floor: worked(() => addUp(past)),
      within: 60_000,
      note: 'processor time, once; the server does it in a thread of its own',
    },
  ];
}

let sink = 0;
const addUp = (garments) => {
  let sum = 0;
  for (const { operations } of garments)
    for (const { plannedMinutes, actualMinutes = 0 } of operations)
      sum += Math.log(plannedMinutes + actualMinutes);
  sink += sum;
  return sink;
};
