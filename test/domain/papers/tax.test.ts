import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { TaxCategory } from '../../../src/domain/papers/tax/category.js';
import { workOutTax } from '../../../src/domain/papers/tax/work-out-tax.js';

const one = (price: string, category: TaxCategory = 'S', rate?: string) => ({
  quantity: new Decimal(1),
  price: new Decimal(price),
  category,
  rate: rate === undefined ? undefined : new Decimal(rate),
});

describe('a discount on the whole', () => {
  it('is shared over the groups by what they come to, to the last cent', () => {
    const answer = workOutTax({
      currency: 'EUR',
      lines: [one('100', 'S', '21'), one('100', 'S', '9'), one('100', 'Z', '0')],
      spreadDiscount: Money.parse('10', 'EUR'),
    });
    expect(answer.allowances.map((each) => `${each.category} ${each.rate} ${each.amount}`)).toEqual([
      'S 21 3.34',
      'S 9 3.33',
      'Z 0 3.33',
    ]);
    expect(answer['BT-107'].toString()).toBe('10.00');
    expect(answer.groups.map((group) => `${group.base} ${group.tax}`)).toEqual([
      '96.66 20.30',
      '96.67 8.70',
      '96.67 0.00',
    ]);
  });

  it('takes nothing from a group that is not above nought', () => {
    const answer = workOutTax({
      currency: 'EUR',
      lines: [one('100', 'S', '21'), { ...one('40', 'S', '9'), quantity: new Decimal(-1) }],
      spreadDiscount: Money.parse('10', 'EUR'),
    });
    expect(answer.groups.map((group) => group.base.toString())).toEqual(['90.00', '-40.00']);
  });

  it('is refused by its field when it is negative or larger than the price', () => {
    for (const amount of ['-1', '100.01']) {
      expect(() =>
        workOutTax({
          currency: 'EUR',
          lines: [one('100', 'S', '21')],
          spreadDiscount: Money.parse(amount, 'EUR'),
        }),
      ).toThrow(expect.objectContaining({ fields: [expect.objectContaining({ field: 'spreadDiscount' })] }));
    }
  });
});

describe('rates', () => {
  it('21 and 21.0 are one group', () => {
    expect(
      workOutTax({ currency: 'EUR', lines: [one('1', 'S', '21'), one('1', 'S', '21.0')] }).groups,
    ).toHaveLength(1);
  });

  it.each(['E', 'Z', 'O', 'AE', 'G', 'K'] as const)(
    'a missing rate of %s is 0, and so is its tax',
    (category) => {
      const [group] = workOutTax({ currency: 'EUR', lines: [one('99.99', category)] }).groups;
      expect(`${group?.rate} ${group?.tax}`).toBe('0 0.00');
    },
  );

  it('a missing rate of S is refused by its field', () => {
    expect(() => workOutTax({ currency: 'EUR', lines: [one('1')] })).toThrow(
      expect.objectContaining({ fields: [expect.objectContaining({ field: 'lines.0.rate' })] }),
    );
  });

  it.each([
    ['0', '0.00'],
    ['100', '10.00'],
  ])('a rate of %s is worked out', (rate, tax) => {
    expect(workOutTax({ currency: 'EUR', lines: [one('10', 'S', rate)] })['BT-110'].toString()).toBe(tax);
  });

  it.each(['-1', '100.01', 'NaN', 'Infinity'])('a rate of %s is refused', (rate) => {
    expect(() => workOutTax({ currency: 'EUR', lines: [one('10', 'S', rate)] })).toThrow(/between 0 and 100/);
  });
});

describe('currencies by their own minor unit', () => {
  it('JPY has none: 1999 at 10 % is 200 of tax', () => {
    const answer = workOutTax({ currency: 'JPY', lines: [one('1999', 'S', '10')] });
    expect(`${answer['BT-110']} ${answer['BT-112']}`).toBe('200 2199');
  });

  it('KWD has three: 10.0005 rounds to 10.001', () => {
    const answer = workOutTax({ currency: 'KWD', lines: [one('10.0005', 'S', '5')] });
    expect(`${answer['BT-106']} ${answer['BT-110']} ${answer['BT-112']}`).toBe('10.001 0.500 10.501');
  });

  it('an amount beyond what can be kept exactly is refused, never rounded', () => {
    expect(() => workOutTax({ currency: 'EUR', lines: [one('1e300', 'S', '5')] })).toThrow(/too large/);
    expect(() => workOutTax({ currency: 'EUR', lines: [one('90071992547409.91', 'S', '5')] })).toThrow(
      /too large/,
    );
  });
});
