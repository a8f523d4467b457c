import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { PriceInput } from '../../../src/domain/pricing/price-terms.js';
import { makeWithinBudget } from '../../../src/domain/pricing/within-budget.js';

const d = (text: string | number) => new Decimal(text);
const eur = (text: string) => Money.parse(text, 'EUR');

const aWaistcoat = (more: Partial<PriceInput> = {}): PriceInput => ({
  currency: 'EUR',
  labour: { perHour: d(20) },
  overhead: [{ name: 'workroom', base: 'productive-hours', rate: d(5) }],
  operations: [
    { name: 'fronts', mode: 'hand', minutes: d(600) },
    { name: 'back', mode: 'machine', minutes: d(200) },
  ],
  materials: [{ name: 'cloth', quantity: d(1), unitCost: d(50) }],
  pricing: { margin: d('0.2') },
  tax: { category: 'S', rate: d(20) },
  ...more,
});

describe('what a budget allows', () => {
  it('gives the hours that a net budget pays for, margin and materials taken off', () => {
    // (50 + hours × 25) / 0.8 = 500 gives 14 h
    const allowed = makeWithinBudget(aWaistcoat(), eur('500'), 'net');
    expect(allowed.minutes).toBe(840);
    expect(allowed.planned.toFixed()).toBe('800');
    expect(allowed.shareOfPlan?.toFixed()).toBe('1.05');
    expect(allowed.answer?.price.net.toString()).toBe('500.00');
  });

  it('takes the tax off a budget with tax', () => {
    expect(makeWithinBudget(aWaistcoat(), eur('600'), 'gross').minutes).toBe(840);
  });

  it('never passes the budget, and one minute more would', () => {
    const input = aWaistcoat({ pricing: { margin: d('0.37'), roundTo: eur('5'), rushShare: d('0.1') } });
    const allowed = makeWithinBudget(input, eur('418.18'), 'gross');
    expect(allowed.answer?.price.gross.compare(eur('418.18'))).toBeLessThanOrEqual(0);
    const operations = [{ name: 'all', mode: 'hand', minutes: d((allowed.minutes ?? 0) + 1) }];
    const more = makeWithinBudget(input, eur('418.18'), 'gross', [{ name: 'a minute more', operations }]);
    expect(more.best).toBeNull();
    expect(more.makes[0]?.left.isNegative()).toBe(true);
  });

  it('keeps the certainty of the plan', () => {
    const operations = [{ name: 'fronts', mode: 'hand', minutes: d(600), pricedMinutes: d(800) }];
    const allowed = makeWithinBudget(aWaistcoat({ operations }), eur('500'), 'net');
    expect(allowed.minutes).toBe(840);
    expect(allowed.answer?.minutes.total.toFixed(0)).toBe('630');
  });

  it('picks the first make that fits', () => {
    const make = (name: string, minutes: number) => ({
      name,
      operations: [{ name, mode: 'hand', minutes: d(minutes) }],
    });
    const makes = [make('all hand', 1200), make('hand where it shows', 800), make('machine', 400)];
    const allowed = makeWithinBudget(aWaistcoat(), eur('500'), 'net', makes);
    expect(allowed.best?.name).toBe('hand where it shows');
    expect(allowed.makes.map((each) => `${each.fits} ${each.left}`)).toEqual([
      'false -187.50',
      'true 20.82',
      'true 229.17',
    ]);
  });

  it('allows for a discount that is more than a garment of no hours would cost', () => {
    const input = aWaistcoat({ materials: [], pricing: { discount: eur('30') } });
    const allowed = makeWithinBudget(input, eur('220'), 'net');
    expect([allowed.minutes, allowed.answer?.price.net.toString()]).toEqual([600, '220.00']);
  });

  it('says when not even the materials fit', () => {
    const allowed = makeWithinBudget(aWaistcoat(), eur('40'), 'net');
    expect([allowed.minutes, allowed.answer]).toEqual([0, null]);
  });

  it('gives no number of hours when an hour costs nothing', () => {
    const free = aWaistcoat({ labour: { perHour: d(0) }, overhead: [] });
    expect(makeWithinBudget(free, eur('500'), 'net').minutes).toBeNull();
  });

  it('refuses a budget of nought', () => {
    expect(() => makeWithinBudget(aWaistcoat(), eur('0'), 'net')).toThrow(Invalid);
  });
});
