import { describe, expect, it } from 'vitest';
import { Invalid, OutOfRange } from '../../../src/domain/kernel/errors.js';
import type { PriceInput } from '../../../src/domain/pricing/price-terms.js';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { d, eur, plainHours } from './a-jacket.js';

describe('a price that cannot be meant', () => {
  const fieldsOf = (input: PriceInput): string[] => {
    try {
      workOutPrice(input);
    } catch (trouble) {
      if (trouble instanceof Invalid) return trouble.fields.map((each) => each.field);
      throw trouble;
    }
    return [];
  };

  it.each<[string, Partial<PriceInput>, string[]]>([
    ['margin and markup', { pricing: { margin: d('0.1'), markup: d('0.1') } }, ['pricing.markup']],
    ['a margin of all', { pricing: { margin: d(1) } }, ['pricing.margin']],
    ['a step of nought', { pricing: { roundTo: eur('0') } }, ['pricing.roundTo']],
    ['too large a discount', { pricing: { discount: eur('500') } }, ['pricing.discount']],
    ['a tax above the whole', { tax: { category: 'S', rate: d(101) } }, ['tax.rate']],
    ['a rate on an exempt sale', { tax: { category: 'E', rate: d(21) } }, ['tax.rate']],
    [
      'two ways to give minutes',
      { operations: [{ name: 'x', mode: 'hand', minutes: d(1), quantity: d(2) }] },
      ['operations.0.minutes'],
    ],
    [
      'several at once',
      {
        operations: [{ name: 'x', mode: 'hand', minutes: d(-1) }],
        materials: [{ name: 'y', quantity: d(-1), unitCost: d(-1) }],
      },
      ['operations.0.minutes', 'materials.0.quantity', 'materials.0.unitCost'],
    ],
    [
      'all of it waste',
      { wasteOf: 'gross', materials: [{ name: 'y', quantity: d(1), unitCost: d(1), wasteShare: d(1) }] },
      ['materials.0.wasteShare'],
    ],
    ['no chance', { chanceOfLoss: 1.2 }, ['chanceOfLoss']],
  ])('names the field: %s', (_, more, fields) => {
    expect(fieldsOf(plainHours(60, more))).toEqual(fields);
  });

  it('refuses an amount too large to keep exactly', () => {
    expect(() => workOutPrice(plainHours(60, { labour: { perHour: d('9e15') } }))).toThrow(OutOfRange);
  });
});
