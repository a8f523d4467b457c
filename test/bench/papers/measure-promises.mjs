import { movedPromises, simulate } from '../../../dist/domain/estimating/promise/simulate.js';
import { median, quantile, worked } from '../measure.mjs';

const GARMENTS = 30;
const ROUNDS = 25;

/** Thirty garments of 20 to 80 hours, three waiting for fittings each, at 30 hours a week: most of a year ahead. */
export function measurePromises() {
  const works = Array.from({ length: GARMENTS }, (_, i) => ({
    ref: `g${i}`,
    minutesAt: (q) => 60 * (20 + 2 * i) * Math.exp(0.3 * Math.log(q / (1 - q))),
    inCommon: 0.2,
    gaps: [0.25, 0.5, 0.8].map((after) => ({ after, days: 7 })),
  }));
  const calendar = { from: '2026-03-02', minutesOn: [360, 360, 360, 360, 360, 0, 0], closedDays: [] };
  let sink = 0;
  const times = Array.from({ length: ROUNDS + 5 }, () =>
    worked(() => {
      const before = simulate(works, calendar);
      sink += works.map(({ ref }) => before.at(ref, 0.8)).length;
    }),
  ).slice(5);
  const moved = movedPromises(
    works.map(({ ref }) => ref),
    simulate(works, calendar),
    simulate(works, { ...calendar, closedDays: ['2026-03-04', '2026-03-05', '2026-03-06'] }),
    0.8,
  );
  return [
    {
      what: `promises for ${GARMENTS} garments, played 1,024 times`,
      ours: median(times),
      within: 200,
      note: `processor time, median of ${ROUNDS}; p95 ${quantile(times, 0.95).toFixed(0)} ms; ${moved.length} of ${sink / (ROUNDS + 5)} move with three closed days`,
    },
  ];
}
