import { describe, expect, it } from 'vitest';
import { hours } from '../../../src/rooms/work-out/aside/hours.js';
import { studioToAsk } from './ask.js';

const { told, refused } = studioToAsk();

describe('POST /api/work-out/hand-stitching', () => {
  it('WS-12 a shirt of 20,548 stitches at 23 a minute: 893.4 min (Hone, Every-Day Book, 1826; G. R. Cooper, Smithsonian Bulletin 254, 1968; answer derived)', async () => {
    const answer = await told('hand-stitching', { stitches: 20_548, stitchesPerMinute: '23' });
    expect(answer).toEqual({ stitches: 20_548, threadChanges: 0, minutes: 893.391304 });
  });

  it('WS-13 5.40 m at 5 to the centimetre and 12 a minute, 48 threads: 225 + 36 = 261 min (constructed)', async () => {
    const thread = { perSeamLength: 4, lengthMm: 450, changeMinutes: '0.75' };
    const seam = { lengthMm: 5400, stitchesPerCm: 5, stitchesPerMinute: 12, thread };
    expect(await told('hand-stitching', seam)).toEqual({ stitches: 2700, threadChanges: 48, minutes: 261 });
  });

  it('refuses a pace of 0 and a seam of no length', async () => {
    const seam = { stitchesPerCm: 5, stitchesPerMinute: 0 };
    expect(await refused('hand-stitching', seam)).toEqual(['/stitchesPerMinute', '/lengthMm']);
    expect(await refused('hand-stitching', { ...seam, stitchesPerMinute: -1 })).toEqual([
      '/stitchesPerMinute',
    ]);
  });
});

describe('POST /api/work-out/true-hours', () => {
  it('52.5, 61, 48, 70.5 h and a guess of 50 (worked with R 4.2.2)', async () => {
    const { garments, typical, next } = await told('true-hours', {
      hours: ['52.5', 61, '48', 70.5],
      ownGuess: '50',
    });
    expect(garments).toBe(4);
    expect(typical.middle).toBeCloseTo(55.8185, 4);
    expect(typical.low80).toBeCloseTo(48.972, 4);
    expect(typical.high80).toBeCloseTo(63.6221, 4);
    expect(next['0.1']).toBeCloseTo(40.511, 4);
    expect(next['0.5']).toBeCloseTo(55.8185, 4);
    expect(next['0.8']).toBeCloseTo(68.4485, 4);
    expect(next['0.9']).toBeCloseTo(76.91, 4);
  });

  it('no garments yet: 50, 69.7351 and 85.9782 (worked with R 4.2.2)', async () => {
    const { garments, next } = await told('true-hours', { hours: [], ownGuess: 50 });
    expect(garments).toBe(0);
    expect(next['0.5']).toBeCloseTo(50, 4);
    expect(next['0.8']).toBeCloseTo(69.7351, 4);
    expect(next['0.9']).toBeCloseTo(85.9782, 4);
  });

  it('WS-19 ratios 1.05 1.10 1.25 1.40 1.60: geometric mean 1.2646 (constructed)', async () => {
    const { typical } = await told('true-hours', { hours: ['1.05', '1.10', '1.25', '1.40', '1.60'] });
    expect(typical.middle).toBeCloseTo(1.2646, 4);
  });

  it('refuses nothing at all, no time, and what is no number', async () => {
    expect(await refused('true-hours', { hours: [] })).toEqual(['/ownGuess']);
    expect(await refused('true-hours', { hours: [0, '1e3', null, 1e308, -1] })).toEqual(
      [0, 1, 2, 3, 4].map((at) => `/hours/${at}`),
    );
  });
});

describe('POST /api/work-out/hours', () => {
  const garment = {
    garmentType: 'jacket',
    operations: [{ kind: 'lapels', mode: 'hand', plannedMinutes: 100 }],
  };

  it('with nothing to go on says so, and answers by the first-run question', async () => {
    // One operation: the middle is e × exp(m0), and m0 is 0, 0.05, 0.20 or 0.10.
    for (const [overruns, middle] of [
      ['no', 100],
      ['a-little', 105.1271],
      ['a-lot', 122.1403],
      ['unknown', 110.5171],
    ] as const) {
      const answer = await told('hours', { garment, overruns });
      expect(answer.rests).toEqual({ garments: 0, ofThisType: 0 });
      expect(answer.total['0.5']).toBeCloseTo(middle, 3);
      expect(answer.operations[0].kind).toBe('lapels');
      expect(answer.operations[0]['0.5']).toBeCloseTo(middle, 3);
      expect(answer.byMode.hand['0.8']).toBeCloseTo(answer.total['0.8'], 6);
    }
  });

  it('rises with certainty, and its doubt is shared out', async () => {
    const answer = await told('hours', { ...(hours.examples['a jacket after two others'] as object) });
    expect(answer.rests).toEqual({ garments: 2, ofThisType: 2 });
    expect(answer.total['0.8']).toBeGreaterThan(answer.total['0.5']);
    expect(answer.total['0.9']).toBeGreaterThan(answer.total['0.8']);
    expect(Object.keys(answer.byMode).sort()).toEqual(['hand', 'press']);
    expect(answer.operations[0]['0.9']).toBe(100); // finished
    const { garment: ofGarment, history, operations } = answer.doubt;
    expect(ofGarment + history + operations).toBeCloseTo(1, 6);
  });

  it('answers at the certainties asked for', async () => {
    const { total } = await told('hours', { garment, certainty: [0.25, 0.95] });
    expect(Object.keys(total)).toEqual(['0.25', '0.95']);
  });

  it('refuses what cannot be meant', async () => {
    const of = (operation: object) => ({ garment: { garmentType: 'a', operations: [operation] } });
    const at = '/garment/operations/0/plannedMinutes';
    for (const plannedMinutes of [null, -1, '1e5', 'NaN', 1e308, '<b>1</b>'])
      expect(await refused('hours', of({ kind: 'a', plannedMinutes }))).toEqual([at]);
    expect(await refused('hours', { garment, certainty: [1] })).toEqual(['/certainty/0']);
    expect(await refused('hours', { garment, overruns: 'often' })).toEqual(['/overruns']);
    expect(await refused('hours', {})).toEqual(['/garment']);
    const begun = Array.from({ length: 61 }, () => ({ kind: 'a', plannedMinutes: 9, soFarMinutes: 1 }));
    const underWay = { garmentType: 'a', operations: begun };
    expect(await refused('hours', { garment: underWay })).toEqual(['/garment/operations']);
    const kinds = Array.from({ length: 401 }, (_, n) => ({
      kind: `k${n}`,
      plannedMinutes: 1,
      actualMinutes: 1,
    }));
    const history = [{ garmentType: 'a', operations: kinds }];
    expect(await refused('hours', { garment, history })).toEqual(['/history']);
  });
});

describe('an operation under way', () => {
  it('that has taken longer than planned is expected to take longer still', async () => {
    const of = (soFarMinutes: number) => ({
      garment: { garmentType: 'a', operations: [{ kind: 'a', plannedMinutes: 60, soFarMinutes }] },
    });
    const { total } = await told('hours', of(90));
    expect(total['0.5']).toBeGreaterThan(90);
    expect(total['0.9']).toBeGreaterThan(total['0.5']);
  });
});

describe('POST /api/work-out/promise', () => {
  it('2,400 a week are 480 a day, closed days skipped (constructed)', async () => {
    const answer = await told('promise', {
      from: '2026-03-02', // a Monday
      backlogMinutes: 960,
      weeklyMinutes: 2400,
      garmentMinutes: { '0.5': 480, '0.8': '480.5', '0.9': 1440 },
      closedDays: ['2026-03-03'],
    });
    // 3 days: 2, 4, 5 March; 4 days: 6 March; 5 days: Monday the 9th
    expect(answer).toEqual({ '0.5': '2026-03-05', '0.8': '2026-03-06', '0.9': '2026-03-09' });
  });

  it('refuses dates that do not exist and a week of nothing', async () => {
    const good = { from: '2026-03-02', backlogMinutes: 0, weeklyMinutes: 1, garmentMinutes: { '0.5': 1 } };
    expect(await refused('promise', { ...good, from: '2026-02-30' })).toEqual(['/from']);
    expect(await refused('promise', { ...good, weeklyMinutes: 0 })).toEqual(['/weeklyMinutes']);
    expect(await refused('promise', { ...good, closedDays: ['soon'] })).toEqual(['/closedDays/0']);
    expect(await refused('promise', { ...good, garmentMinutes: { sure: 1 } })).toEqual([
      '/garmentMinutes/sure',
    ]);
    expect(await refused('promise', { ...good, garmentMinutes: { '0.5': -1 } })).toEqual(['/garmentMinutes']);
    expect(await refused('promise', { ...good, backlogMinutes: 999_999_999 })).toEqual(['/weeklyMinutes']);
  });
});
