import '../work-out/threads.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Money } from '../../../src/domain/kernel/money.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { lessonBook } from '../../../src/storage/lesson/lesson-book.js';
import { aClosedGarment, done } from '../../domain/lessons/a-closed-garment.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket } from '../commissions/an-opening.js';
import { closeGarments } from './close-garments.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

/** Jackets of two operations, each overrun by so much; every second one had an inside pocket nobody had planned. */
const jackets = (from: number, ratios: readonly number[]) =>
  ratios.map((ratio, i) => ({
    ...aClosedGarment(
      [
        done('pad-stitching', 600, 600 * ratio, { ownErrorMinutes: i === 0 ? 60 : 0 }),
        done('seams', 300, 300, { mode: 'machine' }),
        ...(i % 2 === 0 ? [done('inside-pocket', 0, 90)] : [done('hem', 40, 0)]),
      ],
      { garmentId: `g${from + i}`, closedOn: `2026-01-${String(10 + from + i)}`, name: `Jacket <b>${i}</b>` },
    ),
    reckoning: {
      currency: 'EUR',
      price: '900.00',
      actualProfit: '100.00',
      cost: { labour: '350.00', minutes: '900' },
    },
  }));
const api = async (url: string) => (await studio.api('GET', url)).json();

describe('before anything was closed', () => {
  it('says on the proof that there is nothing to prove, and on a type that mending is no line', async () => {
    expect((await studio.get('/lessons/proof')).text).toContain('too few to tell luck from truth');
    expect(await api('/api/lessons/backtest')).toMatchObject({ isCurrent: true, garments: 0 });
    const { text } = await studio.get('/lessons/garment-types/lounge-jacket');
    expect(text).toContain('nothing known yet, so no line in a price');
    expect(text).toContain('How the usual plan comes to its hours');
    expect(text).not.toContain('NaN');
  });

  it('leads on from the old address, and knows no type that is not there', async () => {
    expect((await studio.get('/lessons/types/shirt')).headers.location).toBe('/lessons/garment-types/shirt');
    expect((await studio.get('/lessons/garment-types/no-such')).status).toBe(404);
  });
});

describe('one closed garment', () => {
  it('gives figures in order, and one dot', async () => {
    await closeGarments(studio, jackets(0, [1.2]));
    const told = await api('/api/lessons/garment-types/lounge-jacket');
    expect([told.garments, told.knownByOperation]).toEqual([1, 1]);
    const [even, four, nine] = ['0.5', '0.8', '0.9'].map((q) => Number(told.next[q]));
    expect(even).toBeLessThan(four!);
    expect(four).toBeLessThan(nine!);
    const { text } = await studio.get('/lessons/garment-types/lounge-jacket');
    expect(text.match(/<circle/g)).toHaveLength(1);
    expect(text).toMatch(/Inside pocket, 1 of one [a-z ]*jacket, about 1 h 30/);
    expect(text).not.toContain('NaN');
    expect((await studio.get('/lessons/proof')).text).toContain('One closed garment');
  });
});

describe('seven more, and one typed ten-fold', () => {
  beforeAll(async () => {
    await closeGarments(studio, jackets(1, [1.1, 1.3, 1.2, 1.25, 1.15, 1.2, 1.3]));
    await closeGarments(studio, [
      aClosedGarment([done('pad-stitching', 600, 12_000)], { garmentId: 'g9', closedOn: '2026-02-01' }),
    ]);
  });

  it('tell hours, operations by mode, mending, what was forgotten, what an hour earned and what to time next', async () => {
    const { text } = await studio.get('/lessons/garment-types/lounge-jacket');
    expect(text).toContain('8 of them known by operation');
    expect(text).toContain('far off from the others');
    expect(text).toContain('fill="none"');
    expect(text).toContain('Inside pocket, 5 of 9');
    expect(text).toContain('Hem, 3 of 9');
    // (100 + 350) / 15 h.
    expect(text).toContain('€30.00');
    expect(text).toMatch(/Time [^<]+ next:/);
    expect(text).toMatch(/planned .* × your usual .* (=|&#x3D;) /);
    expect(text).toContain('/commissions/c/garments/g3/reckoning');
    expect(text).toContain('Jacket &lt;b&gt;0&lt;/b&gt;');
    const told = await api('/api/lessons/garment-types/lounge-jacket');
    expect(told.earned).toMatchObject({ garments: 8, perHour: '30.00' });
    expect(told.mending.ownErrorMinutes).toBe(120);
    expect(told.worthTiming.reduce((sum: number, one: { share: number }) => sum + one.share, 0)).toBeCloseTo(
      1,
      9,
    );
    const { items, modes } = await api('/api/lessons/operations');
    expect(items.map(({ kind, mode }: Record<string, string>) => `${kind} ${mode}`)).toEqual([
      'pad-stitching hand',
      'seams machine',
      'inside-pocket hand',
    ]);
    expect(modes).toHaveLength(2);
    expect((await studio.get('/lessons')).text).toContain('By hand, by machine, at the press');
  });

  it('prove the prices: three ways side by side with their counts', async () => {
    await lessonBook.proofUpToDate(studio.read);
    const { text } = await studio.get('/lessons/proof');
    expect(text).toMatch(
      /Of 9 garments, \d took no longer than their 4-in-5 hours; a fair statement keeps about 7\./,
    );
    expect(text).toContain('Your plan × the average ratio');
    expect(text.match(/<circle/g)).toHaveLength(9);
    const { isCurrent, garments, lesson, ownPlan } = await api('/api/lessons/backtest');
    expect([isCurrent, garments]).toEqual([true, 9]);
    // Plans that are overrun by a fifth each time: the lesson learns it, the plan never does.
    expect(Math.abs(lesson.medianBias)).toBeLessThan(Math.abs(ownPlan.medianBias));
  });

  it('keep the old proof while a long one is worked out beside the requests', async () => {
    const many = Array.from({ length: 15 }, (_, i) =>
      aClosedGarment(
        Array.from({ length: 12 }, (__, kind) => done(`kind-${kind}`, 60, 60 + kind + i)),
        { garmentId: `m${i}`, typeId: 'cape', closedOn: '2026-02-10' },
      ),
    );
    await closeGarments(studio, many);
    expect(await api('/api/lessons/backtest')).toMatchObject({ isCurrent: false, garments: 9 });
    expect((await studio.get('/lessons/proof')).text).toContain('Look again');
    expect((await lessonBook.proofUpToDate(studio.read)).proof?.garments).toBe(24);
    expect(await api('/api/lessons/backtest')).toMatchObject({ isCurrent: true, garments: 24 });
  });

  it('become a mending line in the next price, explained beside its hours', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Said what an hour costs', 'rates');
      const person = {
        name: 'Odalys Fenwright',
        pay: Money.zero('EUR'),
        onCosts: [],
        plainPerHour: Money.parse('30.00', 'EUR'),
        perHourByMode: {},
      };
      await ratesBook.setFrom(
        writing,
        rateCard('2026-01-01', { currency: 'EUR', people: [person], overhead: [] }),
      );
    });
    const { text } = await studio.get(`${await aJacket(studio)}/sum`);
    expect(text).toContain('Mending');
    expect(text).toContain('How these hours come about');
    expect(text).toMatch(/planned [^<]* × your usual [^<]* (=|&#x3D;) /);
    expect(text).toContain('Mending adds');
    expect(text).toMatch(/hold \d[^<]* for mending; the hours by mode are those of the making alone/);
  });
});

describe('seams sewn by hand', () => {
  it('show the pace of the hand, and offer it where such a seam is planned', async () => {
    const url = await aJacket(studio);
    const [line] = (await api(`/api/garments/${url.split('/').at(-1)}`)).plan;
    expect((await studio.get(`${url}/plan/${line.id}`)).text).not.toContain('Your own pace');
    const sewn = { seam: { lengthMm: 1200, stitches: 600 } };
    await closeGarments(studio, [
      aClosedGarment([done(line.kind, 60, 60, { ...sewn, name: 'Felling <i>' })], { closedOn: '2026-02-25' }),
    ]);
    const { paces } = await api('/api/lessons/operations');
    expect(paces).toEqual([
      expect.objectContaining({ kind: line.kind, garments: 1, typical: '600', cmAnHour: '120' }),
    ]);
    expect(paces[0].ofEach).toEqual([{ pace: '600', isFarOff: false }]);
    const { text } = await studio.get('/lessons');
    expect(text).toContain('The pace of the hand');
    expect(text).toContain('Felling &lt;i&gt;');
    expect(text).toMatch(/<svg[^>]*aria-label="Stitches an hour[^>]*>.*Felling &#60;i&#62;.*<circle/s);
    expect((await studio.get(`${url}/plan/${line.id}`)).text).toContain(
      'Your own pace at this is 10 stitches a minute, threading included, from one closed garment.',
    );
  });
});
