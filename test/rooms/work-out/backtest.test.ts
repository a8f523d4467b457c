import './threads.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backtest } from '../../../src/domain/estimating/proof/backtest.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

/** A plain congruential generator (Numerical Recipes, section 7.1), so that the history is the same each time. */
const chances = (seed: number) => {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

const TYPES = ['jacket', 'trousers', 'waistcoat', 'skirt', 'coat', 'shirt'];
/** Garments whose work runs a tenth over, each with an effect of its own and twelve uniforms' noise. */
const pastOf = (garments: number, operations: number, seed = 7) => {
  const next = chances(seed);
  const normal = () => Array.from({ length: 12 }, next).reduce((sum, each) => sum + each, -6);
  return Array.from({ length: garments }, (_, g) => {
    const own = 0.2 * normal();
    return {
      garmentType: TYPES[g % TYPES.length]!,
      operations: Array.from({ length: operations }, (_, o) => {
        const plannedMinutes = 20 + 10 * ((g * 7 + o * 13) % 12);
        const ratio = Math.exp(0.1 + own + 0.3 * normal());
        return {
          kind: `kind ${(g * 5 + o) % 40}`,
          plannedMinutes,
          actualMinutes: Math.ceil(plannedMinutes * ratio),
        };
      }),
    };
  });
};

describe('POST /api/work-out/backtest', () => {
  /** The bench proves 20,000 rows, and says what that takes. */
  it('proves thousands of rows in a thread, while the server keeps answering', async () => {
    const history = pastOf(600, 10);
    let isDone = false;
    const asked = studio.api('POST', '/api/work-out/backtest', { history }).finally(() => {
      isDone = true;
    });
    let answeredMeanwhile = 0;
    while (!isDone) {
      const seam = { stitches: 23, stitchesPerMinute: 23 };
      const other = await studio.api('POST', '/api/work-out/hand-stitching', seam);
      expect(other.json().minutes).toBe(1);
      answeredMeanwhile += 1;
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    expect(answeredMeanwhile).toBeGreaterThan(3);
    const answer = await asked;
    expect(answer.status, answer.text).toBe(200);
    const { garments, lesson, ownPlan, averageRatio } = answer.json();
    expect(garments).toBe(600);
    // The share of 600 that falls inside a true 80 % has a standard error of 1.6 hundredths.
    expect(lesson.within80).toBeGreaterThan(0.74);
    expect(lesson.within80).toBeLessThan(0.88);
    expect(lesson.within90).toBeGreaterThan(0.85);
    expect(lesson.crps).toBeLessThan(ownPlan.crps);
    for (const score of [ownPlan, averageRatio])
      expect(Object.keys(score)).toEqual(['within80', 'within90', 'atMostP80', 'medianBias', 'crps']);
  }, 400_000);

  it('gives the same answer from a thread as at once', async () => {
    const history = pastOf(12, 10);
    const { trail: _, ...atOnce } = backtest(history);
    const answer = await studio.api('POST', '/api/work-out/backtest', { history });
    expect(answer.json()).toEqual(JSON.parse(JSON.stringify(atOnce)));
  });

  it('answers for no history with noughts, and refuses minutes that are none by their place', async () => {
    expect((await studio.api('POST', '/api/work-out/backtest', { history: [] })).json().garments).toBe(0);
    const operations = [{ kind: 'hem', plannedMinutes: 1, actualMinutes: -1 }];
    const answer = await studio.api('POST', '/api/work-out/backtest', {
      history: [{ garmentType: 'a', operations }],
    });
    expect(answer.status).toBe(422);
    expect(answer.json().errors[0].pointer).toBe('/history/0/operations/0/actualMinutes');
  });

  it('fits hours on a long history in a thread too', async () => {
    const garment = { garmentType: 'jacket', operations: [{ kind: 'kind 1', plannedMinutes: 100 }] };
    const answer = await studio.api('POST', '/api/work-out/hours', { history: pastOf(60, 10), garment });
    expect(answer.status, answer.text).toBe(200);
    expect(answer.json().rests).toEqual({ garments: 60, ofThisType: 10 });
    expect(answer.json().total['0.5']).toBeGreaterThan(90);
    expect(answer.json().total['0.5']).toBeLessThan(150);
  });

  it('asks a thread about a garment with much under way', async () => {
    const operations = Array.from({ length: 24 }, (_, at) => ({
      kind: `kind ${at}`,
      plannedMinutes: 30,
      ...(at < 12 ? { soFarMinutes: 20 } : {}),
    }));
    const garment = { garmentType: 'jacket', operations };
    const answer = await studio.api('POST', '/api/work-out/hours', { garment });
    expect(answer.status, answer.text).toBe(200);
    expect(answer.json().operations).toHaveLength(24);
    expect(answer.json().total['0.5']).toBeGreaterThan(24 * 30);
  });

  it('takes bodies of more than 2 MiB here, and only here', async () => {
    const big = { history: [], overruns: 'x'.repeat(3 * 1024 * 1024) };
    expect((await studio.api('POST', '/api/work-out/backtest', big)).status).toBe(422);
    const elsewhere = await studio.api('POST', '/api/work-out/price', big);
    expect(elsewhere.status).toBe(413);
    expect(elsewhere.headers['content-type']).toContain('application/problem+json');
  });
});
