import { backtest } from '../../dist/domain/estimating/proof/backtest.js';
import { fromTests } from './from-tests.mjs';

const STUDIOS = 30;
const GARMENTS = 40;
const FIRST_SEED = 41;

/** Fresh workrooms from a stated truth: what was stated at 80 and 90 % must hold as often, and be worth more than a plan. */
export async function measureStudy() {
  const { aStudio } = await fromTests('test/reference/estimating/studio.ts');
  const proofs = Array.from({ length: STUDIOS }, (_, i) =>
    backtest(aStudio(FIRST_SEED + i, { garments: GARMENTS })),
  );
  const mean = (of) => proofs.reduce((sum, proof) => sum + of(proof), 0) / proofs.length;
  const scores = Object.fromEntries(
    ['lesson', 'ownPlan', 'averageRatio'].map((way) => [
      way,
      Object.fromEntries(
        ['within80', 'within90', 'atMostP80', 'medianBias', 'crps'].map((figure) => [
          figure,
          mean((proof) => proof[way][figure]),
        ]),
      ),
    ]),
  );
  const share = (value) => `${(100 * value).toFixed(1)} %`;
  const told = (way, words) =>
    `${words}: 80 % held ${share(scores[way].within80)}, 90 % ${share(scores[way].within90)}, at most 4 in 5 ${share(scores[way].atMostP80)}, bias ${scores[way].medianBias.toFixed(3)}, CRPS ${scores[way].crps.toFixed(4)}`;
  const { lesson, ownPlan, averageRatio } = scores;
  const between = (value, low, high) => (value >= low && value <= high ? 0 : 1);
  const what = `${STUDIOS} workrooms of ${GARMENTS} garments`;
  return [
    {
      what: `${what}: outside 76 to 86 and 86 to 95 %`,
      count: between(lesson.within80, 0.76, 0.86) + between(lesson.within90, 0.86, 0.95),
      note: told('lesson', 'lesson'),
    },
    {
      what: `${what}: ways with a better CRPS`,
      count: [ownPlan, averageRatio].filter(({ crps }) => crps <= lesson.crps).length,
      note: `${told('ownPlan', 'own plan')}; ${told('averageRatio', 'average ratio')}`,
    },
  ];
}
