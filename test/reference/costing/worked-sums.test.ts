/**
 * Worked sums of the trade. *Published* sums name their source; *constructed* sums are the house's own and check the
 * arithmetic only, not the world.
 */
import { describe, expect, it } from 'vitest';
import { planItselfRan } from '../../../src/domain/costing/causes.js';
import { drawUpCostSheet } from '../../../src/domain/costing/cost-sheet.js';
import { quantityWithWaste } from '../../../src/domain/costing/material-cost.js';
import { variancesOf } from '../../../src/domain/costing/variances.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { profitOf } from '../../../src/domain/pricing/margin.js';
import { standingPrice } from '../../../src/domain/pricing/price-list.js';
import {
  hourlyRate,
  hoursOfYear,
  hourWithMargin,
  temptingRate,
} from '../../../src/domain/rates/hourly-rate.js';
import { lengthAtWidth } from '../../../src/domain/stock/cloth-width.js';

const d = (number: string | number) => new Decimal(number);
const money = (amount: string | number) => Money.rounded(d(amount), 'USD');

/** A garment of so many hours at one rate, with materials by quantity and unit cost. */
const garment = (hours: number, perHour: number, materials: readonly (readonly [number, number])[]) =>
  drawUpCostSheet({
    currency: 'USD',
    labour: { perHour: d(perHour) },
    operations: [{ name: 'making', mode: 'hand', minutes: d(hours * 60) }],
    materials: materials.map(([quantity, unitCost], index) => ({
      name: `material ${index + 1}`,
      quantity: d(quantity),
      unitCost: d(unitCost),
    })),
  });

describe('constructed: what an hour costs', () => {
  const year = { weeks: d(46), hoursAWeek: d(34), productiveShare: d('0.62') };
  const rate = () =>
    hourlyRate({
      currency: 'EUR',
      pay: Money.parse('22000', 'EUR'),
      overhead: [{ name: 'all of it', amount: Money.parse('5220', 'EUR') }],
      year,
    });

  it('WS-1 22,000 of pay and 5,220 of overhead over 969.68 productive hours: 28.07, and 31.19 with 10 % profit', () => {
    const { hours, shown, total } = rate();
    expect([hours.worked.toFixed(), hours.productive.toFixed()]).toEqual(['1564', '969.68']);
    expect(`${shown.labour} + ${shown.overhead} = ${shown.total}`).toBe('22.69 + 5.38 = 28.07');
    expect(hourWithMargin(total, d('0.10')).toFixed(2)).toBe('31.19');
  });

  it('WS-2 the trap: the same pay over 52 × 40 hours is 10.58', () => {
    expect(temptingRate(Money.parse('22000', 'EUR')).toString()).toBe('10.58');
  });
});

describe('published: what garments cost', () => {
  it.each([
    ['coat', 45, [62.5, 10.5, 90, 125], '1125.00', '1413.00'],
    ['breeches', 12, [31.25, 9], '300.00', '340.25'],
    ['shirt', 15, [30, 3], '375.00', '408.00'],
  ] as const)(
    'WS-3 %s (kittycalash.com, What’s it worth Wednesday, 25 May 2016)',
    (_, hours, costs, labour, cost) => {
      const sheet = garment(
        hours,
        25,
        costs.map((each) => [1, each] as const),
      );
      expect(`${sheet.labour} ${sheet.cost}`).toBe(`${labour} ${cost}`);
    },
  );

  it('WS-4 half an hour at 20.00 and 7.25 of materials: 17.25 (thebalancecareers.com, article 3515948)', () => {
    const work = { currency: 'USD', hours: d('0.5'), perHour: d(20), trimmings: money('7.25') };
    expect(standingPrice(work).price.toString()).toBe('17.25');
  });

  it('WS-5 cloth 36.00 and 10 h at 15.00: 186.00 (grecianneedle.com, 14 Nov 2022)', () => {
    expect(garment(10, 15, [[1, 36]]).cost.toString()).toBe('186.00');
  });

  it('WS-6 47.25 of materials, 95.25 with 6 h at 8.00 (zknowsbest.wordpress.com, 6 Apr 2010, misprint corrected)', () => {
    const sheet = garment(6, 8, [
      [2.5, 12],
      [0.5, 4.5],
      [1, 15],
    ]);
    expect(`${sheet.materials} ${sheet.cost}`).toBe('47.25 95.25');
  });

  it.each([
    ['least', [700, 220, 200, 100, 200], '1420.00'],
    ['most', [800, 260, 240, 110, 300], '1710.00'],
  ] as const)(
    'WS-7 a London suit, %s (permanentstyle.co.uk, costs of four London tailors)',
    (_, parts, cost) => {
      const names = ['coat', 'trousers', 'cloth', 'trimmings', 'cutting'];
      const expenses = parts.map((amount, index) => ({ name: names[index] ?? '', amount: money(amount) }));
      const sheet = drawUpCostSheet({ currency: 'USD', labour: { perHour: d(0) }, expenses });
      expect(sheet.cost.toString()).toBe(cost);
    },
  );

  it('WS-8 cost 4.00, price 12.00: margin 66.67 %, markup 200 % (makersrow.com blog, May 2015)', () => {
    const { margin, markup } = profitOf(money(12), money(4));
    expect([margin?.times(100).toFixed(2), markup?.times(100).toFixed()]).toEqual(['66.67', '200']);
  });

  it('WS-9 70 % of 1,752 hours is 1,226.4 (M. Henderson, How to calculate your hourly rate)', () => {
    const year = { weeks: d(48), hoursAWeek: d('36.5'), productiveShare: d('0.70') };
    const { worked, productive } = hoursOfYear(year);
    expect([worked.toFixed(), productive.toFixed()]).toEqual(['1752', '1226.4']);
  });
});

describe('constructed: cloth and time', () => {
  it('WS-10 5.20 m quoted at 46.00, bought at 49.70: 19.24 unfavourable', () => {
    const cloth = (unitCost: string) => ({
      price: money(0),
      materials: [{ name: 'cloth', quantity: d('5.20'), unitCost: d(unitCost) }],
    });
    const { variances } = variancesOf('USD', cloth('46.00'), cloth('49.70'));
    expect(variances.find((each) => each.kind === 'material-price')?.amount.toString()).toBe('-19.24');
  });

  it('WS-14 2.90 m with 10 % of waste: 3.19 m of net, 3.22 m of gross', () => {
    const buy = (of: 'net' | 'gross') => quantityWithWaste(d('2.90'), d('0.10'), of).toFixed(2);
    expect([buy('net'), buy('gross')]).toEqual(['3.19', '3.22']);
  });

  it('WS-15 3.20 m at 150 cm is 3.43 m at 140 cm and 8.59 m at 22 in, by area only', () => {
    const at = (mm: string) => lengthAtWidth(d('3.20'), d(1500), d(mm)).toFixed(2);
    expect([at('1400'), at('558.8')]).toEqual(['3.43', '8.59']);
  });

  it('WS-16 72.0 h against 51.0 h: the plan itself ran 2.25 h under', () => {
    const over = planItselfRan(d('51.0'), d('72.0'), {
      'client asked': d('14.0'),
      'own choice': d('7.0'),
      'own error': d('2.25'),
    });
    expect(over.toFixed()).toBe('-2.25');
  });

  it('WS-17 a hem of 0.4 h at 31.50 is 12.60 and becomes 18.00', () => {
    const hem = { currency: 'EUR', hours: d('0.4'), perHour: d('31.50') };
    const price = standingPrice({ ...hem, minimumCharge: Money.parse('18.00', 'EUR') });
    expect(`${price.worked} ${price.price} ${price.minimumApplied}`).toBe('12.60 18.00 true');
  });
});
