import { describe, expect, it } from 'vitest';
import { price } from '../../../src/rooms/work-out/price.js';
import { studioToAsk } from './ask.js';

const { told, refused, studio } = studioToAsk();
const jacket = price.examples['a jacket with stash buttons'] as Record<string, any>;
const hour = { currency: 'EUR', labour: { perHour: '20.00' } };
const oneHour = { ...hour, operations: [{ name: 'making', mode: 'hand', minutes: 60 }] };

describe('the price of a jacket (constructed; every step reckoned by hand)', () => {
  it('follows the order of work', async () => {
    const { minutes, costSheet, price: asked, keptBack, chanceOfLoss } = await told('price', jacket);
    // 90 + (10 + 11 × 25) = 375 min, all by hand
    expect(minutes).toEqual({ total: 375, byMode: { hand: 375 }, priced: 375 });
    expect(costSheet).toEqual({
      materials: '239.20', // 5.20 × 46.00; the buttons came from the stash at 0
      labour: '141.82', // 1.5 h × 22.69 = 34.035 → 34.04; 4.75 h × 22.69 = 107.7775 → 107.78
      machine: '0.00',
      overhead: '51.36', // 33.63 + 17.73
      overheadByPool: {
        workroom: '33.63', // 6.25 h × 5.38 = 33.625
        finishing: '17.73', // 0.125 × 141.82 = 17.7275
      },
      expenses: '12.00',
      mending: { minutes: 0, money: '0.00' },
      cost: '444.38', // 239.20 + 141.82 + 51.36 + 12.00
    });
    expect(asked).toMatchObject({
      stashUplift: '35.20', // 11 × 3.20
      handling: '35.88', // 0.15 × 239.20
      rush: '0.00',
      net: '568.75', // (444.38 + 35.20) / 0.9 = 532.8667; + 35.88 = 568.7467, up to the next 0.01
      tax: '119.44', // 21 % of 568.75 = 119.4375
      gross: '688.19',
      profit: '124.37', // 568.75 − 444.38
      margin: '0.218672527473', // 124.37 / 568.75
      markup: '0.279873081597', // 124.37 / 444.38
      earnedPerHour: '42.59', // (124.37 + 141.82) / 6.25 h = 42.5904
      lowestThatPaysTheWage: '444.38',
    });
    expect(keptBack).toEqual({ minutes: 0, money: '0.00' });
    expect(chanceOfLoss).toBeNull();
  });

  it('lifts a hem of 12.60 to the minimum charge of 18.00 (WS-17)', async () => {
    const { costSheet, price: asked } = await told('price', price.examples['a hem at the minimum charge']);
    expect([costSheet.cost, asked.net, asked.minimumApplied]).toEqual(['12.60', '18.00', true]);
  });

  it('adds rush on labour, takes the discount off, and goes up to a step', async () => {
    const { price: asked } = await told('price', {
      ...oneHour,
      pricing: { markup: '0.25', rushShare: 0.5, discount: '1.00', roundTo: 10 },
    });
    // 20.00 × 1.25 = 25.00; + 0.5 × 20.00 = 35.00; − 1.00 = 34.00; up to 40
    expect([asked.rush, asked.discount, asked.net]).toEqual(['10.00', '1.00', '40.00']);
    const onPrice = await told('price', {
      ...oneHour,
      pricing: { markup: 0.25, rushShare: 0.5, rushOn: 'price' },
    });
    expect([onPrice.price.rush, onPrice.price.net]).toEqual(['12.50', '37.50']);
  });

  it('says what is kept back at 4 in 5 and what the chance of a loss is', async () => {
    const four = await told('price', { ...oneHour, certainty: 0.8, pricing: { margin: 0.2 } });
    const nine = await told('price', { ...oneHour, certainty: 0.9, pricing: { margin: 0.2 } });
    expect(four.keptBack.minutes).toBeGreaterThan(5);
    expect(four.minutes.priced).toBeCloseTo(four.minutes.total + four.keptBack.minutes, 6);
    expect(nine.keptBack.minutes).toBeGreaterThan(four.keptBack.minutes);
    expect(four.chanceOfLoss).toBeGreaterThan(0);
    expect(four.chanceOfLoss).toBeLessThan(0.2);
    expect(nine.chanceOfLoss).toBeLessThan(four.chanceOfLoss);
    // At no profit the job loses money exactly when it takes longer than the priced minutes.
    const bare = await told('price', { ...oneHour, certainty: 0.8 });
    expect(bare.chanceOfLoss).toBeCloseTo(0.2, 2);
  });

  it('takes minutes kept back as they are given', async () => {
    const { keptBack, costSheet } = await told('price', { ...oneHour, keptBackMinutes: 30 });
    expect([keptBack, costSheet.cost]).toEqual([{ minutes: 30, money: '10.00' }, '30.00']);
  });
});

describe('edges of a price', () => {
  it.each([
    [0, '20.00', '0.00', '20.00'],
    ['100', '20.00', '20.00', '40.00'],
  ])('tax of %s per cent', async (rate, net, tax, gross) => {
    const answer = await told('price', { ...oneHour, tax: { category: 'S', rate } });
    expect(answer.price).toMatchObject({ net, tax, gross });
  });

  it('no operations: nothing is earned an hour, which is null', async () => {
    const empty = await told('price', { ...hour, operations: [] });
    expect(empty.price).toMatchObject({ net: '0.00', margin: null, markup: null, earnedPerHour: null });
    expect((await told('price', hour)).costSheet.cost).toBe('0.00');
    expect((await told('price', { ...hour, operations: [], certainty: 0.9 })).price.net).toBe('0.00');
  });

  it('200 operations of 20 minutes: 4,000 minutes, 200 × 6.67', async () => {
    const operations = Array.from({ length: 200 }, (_, at) => ({
      name: `pocket ${at}`,
      mode: 'hand',
      minutes: 20,
    }));
    const answer = await told('price', { ...hour, operations });
    expect([answer.minutes.total, answer.costSheet.labour]).toEqual([4000, '1334.00']);
    expect((await told('price', { ...hour, operations, certainty: 0.8 })).minutes.priced).toBeGreaterThan(
      4000,
    );
  });

  it.each([
    ['JPY', '3333', '667', '667'],
    ['KWD', '33.333', '6.667', '6.667'],
  ])('%s keeps its own decimals', async (currency, perHour, cost, net) => {
    const operations = [{ name: 'cuff', mode: 'hand', minutes: 12 }];
    const answer = await told('price', { currency, labour: { perHour }, operations });
    expect([answer.costSheet.cost, answer.price.net]).toEqual([cost, net]);
  });

  it.each([
    ['JPY', '12.5'],
    ['EUR', '12.005'],
    ['KWD', '1.0005'],
  ])('refuses an amount of more decimals than %s has', async (currency, amount) => {
    const body = {
      ...oneHour,
      currency,
      expenses: [{ name: 'courier', amount }],
      pricing: { discount: amount },
    };
    expect(await refused('price', body)).toEqual(['/expenses/0/amount', '/pricing/discount']);
  });

  it('takes the studio’s currency where none is named', async () => {
    const { currency: _, ...plain } = oneHour;
    expect((await told('price', plain)).price.net).toBe('20.00');
  });

  it('keeps markup and template syntax in a name as they are', async () => {
    const name = '<b>{{x}}</b> תפירה';
    const answer = await told('price', { ...oneHour, overhead: [{ name, base: 'labour-cost', rate: 1 }] });
    expect(answer.costSheet.overheadByPool).toEqual({ [name]: '20.00' });
  });

  it('stores nothing', async () => {
    const before = (await studio().get('/history')).text.length;
    await told('price', jacket);
    expect((await studio().get('/history')).text.length).toBe(before);
  });
});

describe('what cannot be meant', () => {
  const operation = (more: object) => ({ ...hour, operations: [{ name: 'hem', mode: 'hand', ...more }] });
  it.each([
    ['null', null, ['']],
    ['a list', [], ['']],
    ['no rates', {}, ['/labour']],
    ['no labour rate', { labour: {} }, ['/labour/perHour']],
    ['unknown fields', { ...oneHour, colour: 'red', size: 1 }, ['/colour', '/size']],
    ['an unknown field within', operation({ minutes: 1, pace: 2 }), ['/operations/0/pace']],
    ['margin and markup', { ...oneHour, pricing: { margin: 0.1, markup: 0.1 } }, ['/pricing/markup']],
    ['a margin of 1', { ...oneHour, pricing: { margin: 1 } }, ['/pricing/margin']],
    ['null money', { ...hour, labour: { perHour: null } }, ['/labour/perHour']],
    ['NaN as text', { ...hour, labour: { perHour: 'NaN' } }, ['/labour/perHour']],
    ['an exponent', { ...hour, labour: { perHour: '1e5' } }, ['/labour/perHour']],
    ['grouping', { ...hour, labour: { perHour: '1,000.00' } }, ['/labour/perHour']],
    ['markup in a number', { ...hour, labour: { perHour: '<i>5</i>' } }, ['/labour/perHour']],
    ['a template in a number', { ...hour, labour: { perHour: '{{5}}' } }, ['/labour/perHour']],
    ['money as a float', { ...hour, labour: { perHour: 22.69 } }, ['/labour/perHour']],
    ['1e308', { ...hour, labour: { perHour: 1e308 } }, ['/labour/perHour']],
    ['13 digits', { ...oneHour, pricing: { discount: '1000000000000.00' } }, ['/pricing/discount']],
    ['13 digits as a number', { ...oneHour, pricing: { discount: 1e12 } }, ['/pricing/discount']],
    ['400 digits', { ...oneHour, pricing: { discount: '1'.repeat(400) } }, ['/pricing/discount']],
    ['negative money', { ...hour, labour: { perHour: '-1' } }, ['/labour/perHour']],
    ['a negative quantity', operation({ quantity: -1, minutesPerUnit: 1 }), ['/operations/0/quantity']],
    ['negative minutes', operation({ minutes: -5 }), ['/operations/0/minutes']],
    ['half a minute', operation({ minutes: 90.5 }), ['/operations/0/minutes']],
    ['minutes twice', operation({ minutes: 90, minutesPerUnit: 2 }), ['/operations/0/minutes']],
    ['no name', { ...hour, operations: [{ name: ' ', mode: 'hand', minutes: 1 }] }, ['/operations/0/name']],
    [
      'a name of 401',
      { ...hour, operations: [{ name: 'x'.repeat(401), mode: 'hand' }] },
      ['/operations/0/name'],
    ],
    ['an unknown base', { ...hour, overhead: [{ name: 'a', base: 'hours', rate: 1 }] }, ['/overhead/0/base']],
    ['tax above 100', { ...oneHour, tax: { category: 'S', rate: 101 } }, ['/tax/rate']],
    ['tax on exempt', { ...oneHour, tax: { category: 'E', rate: 21 } }, ['/tax/rate']],
    ['no such currency', { ...oneHour, currency: 'XXQ' }, ['/currency']],
    ['a discount above the price', { ...oneHour, pricing: { discount: 21 } }, ['/pricing/discount']],
    ['a step of 0', { ...oneHour, pricing: { roundTo: '0.00' } }, ['/pricing/roundTo']],
    ['certain', { ...oneHour, certainty: 1 }, ['/certainty']],
    ['two ways of keeping back', { ...oneHour, certainty: 0.8, keptBackMinutes: 5 }, ['/keptBackMinutes']],
  ])('%s', async (_, body, pointers) => {
    expect(await refused('price', body)).toEqual(pointers);
  });

  it('an amount beyond what can be kept exactly is refused, not rounded', async () => {
    const operations = [{ name: 'a long coat', mode: 'hand', minutes: 999_999_999 }];
    const answer = await studio().api('POST', '/api/work-out/price', {
      currency: 'EUR',
      labour: { perHour: '999999999999.99' },
      operations,
    });
    expect([answer.status, answer.json().code]).toEqual([422, 'out-of-range']);
  });
});
