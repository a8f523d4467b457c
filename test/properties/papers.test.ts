import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../src/domain/kernel/decimal.js';
import { Money } from '../../src/domain/kernel/money.js';
import { TAX_CATEGORIES } from '../../src/domain/papers/tax/category.js';
import { lineNet } from '../../src/domain/papers/tax/line-net.js';
import type { TaxAnswer, TaxQuestion } from '../../src/domain/papers/tax/tax-question.js';
import { workOutTax } from '../../src/domain/papers/tax/work-out-tax.js';

const aKind = fc.constantFrom(
  ...(['25', '21', '20', '19', '9', '5.5', '4.8', '0.1'] as const).map((rate) => ({
    category: 'S' as const,
    rate,
  })),
  ...(['Z', 'E', 'O', 'AE', 'G', 'K'] as const).map((category) => ({ category, rate: '0' })),
);
const aNumber = (most: number, places: number) =>
  fc.integer({ min: 0, max: most }).map((whole) => new Decimal(whole).div(new Decimal(10).pow(places)));
const someMoney = (currency: string, most: number) =>
  fc.integer({ min: 0, max: most }).map((minor) => Money.ofMinor(minor, currency));

const anInvoice: fc.Arbitrary<TaxQuestion> = fc
  .constantFrom('EUR', 'EUR', 'GBP', 'JPY', 'KWD')
  .chain((currency) =>
    fc.record({
      currency: fc.constant(currency),
      lines: fc.array(
        fc
          .record({
            kind: aKind,
            quantity: aNumber(500_000, 3),
            back: fc.boolean(),
            price: aNumber(900_000_000, 4),
            baseQuantity: fc.constantFrom('1', '1', '1', '2', '100', '0.5'),
            allowances: fc.array(someMoney(currency, 5000), { maxLength: 2 }),
            charges: fc.array(someMoney(currency, 5000), { maxLength: 2 }),
          })
          .map(({ kind, quantity, back, price, baseQuantity, allowances, charges }) => ({
            quantity: back ? quantity.negated() : quantity,
            price,
            baseQuantity: new Decimal(baseQuantity),
            category: kind.category,
            rate: new Decimal(kind.rate),
            allowances,
            charges,
          })),
        { minLength: 1, maxLength: 8 },
      ),
      charges: fc.array(
        fc.record({ kind: aKind, amount: someMoney(currency, 90_000) }).map(({ kind, amount }) => ({
          amount,
          category: kind.category,
          rate: new Decimal(kind.rate),
        })),
        { maxLength: 2 },
      ),
      prepaid: someMoney(currency, 100_000),
      discountShare: fc.integer({ min: 0, max: 100 }),
    }),
  )
  .map(({ discountShare, ...question }) => {
    const before = workOutTax(question).groups.reduce((sum, { base }) => sum + Math.max(base.minor, 0), 0);
    const discount = Math.floor((before * discountShare) / 100);
    return { ...question, spreadDiscount: Money.ofMinor(discount, question.currency) };
  });

/** Which identities fail, by name; one comparison per invoice keeps 20,000 of them quick. */
const broken = (question: TaxQuestion, answer: TaxAnswer): string[] => {
  const sum = (all: readonly Money[]): number => Money.sum(all, question.currency).minor;
  const t = (term: string): number => answer[term as 'BT-106'].minor;
  const groupHolds = ({ base, rate, tax, category }: TaxAnswer['groups'][number]): boolean => {
    if (!TAX_CATEGORIES[category].taxed) return tax.isZero();
    // Exact in minor units: the tax is at most half a unit away from base × rate ÷ 100.
    return new Decimal(base.minor).times(rate).div(100).minus(tax.minor).abs().lessThanOrEqualTo(0.5);
  };
  const names = new Set(answer.groups.map((group) => `${group.category} ${group.rate}`));
  const identities: [string, boolean][] = [
    ['BR-CO-10', t('BT-106') === sum(answer.lines.map((line) => line.net))],
    ['BR-CO-11', t('BT-107') === sum(answer.allowances.map((each) => each.amount))],
    ['BR-CO-12', t('BT-108') === sum(answer.charges.map((each) => each.amount))],
    ['BR-CO-13', t('BT-109') === t('BT-106') - t('BT-107') + t('BT-108')],
    ['BR-S-08', t('BT-109') === sum(answer.groups.map((group) => group.base))],
    ['BR-CO-14', t('BT-110') === sum(answer.groups.map((group) => group.tax))],
    ['BR-CO-15', t('BT-112') === t('BT-109') + t('BT-110')],
    ['BR-CO-16', t('BT-115') === t('BT-112') - t('BT-113') + t('BT-114')],
    ['BR-CO-17', answer.groups.every(groupHolds)],
    ['one group each', names.size === answer.groups.length],
    [
      'quantity × price',
      answer.lines.every((line, index) => {
        const { quantity, baseQuantity, category, rate } = question.lines[index]!;
        return lineNet({ quantity, baseQuantity, category, rate, ...line }, question.currency).equals(
          line.net,
        );
      }),
    ],
  ];
  return identities.filter(([, holds]) => !holds).map(([name]) => name);
};

describe('the arithmetic of papers, on random invoices', () => {
  it('holds every identity of the standard on 20,000 invoices', () => {
    fc.assert(
      fc.property(anInvoice, (question) => {
        const answer = workOutTax(question);
        expect(broken(question, answer)).toEqual([]);
        const spread = answer.allowances.filter((each) => each.spread).map((each) => each.amount);
        expect(Money.sum(spread, question.currency).minor).toBe(question.spreadDiscount?.minor);
      }),
      { numRuns: 20_000, seed: 16_931 },
    );
  }, 120_000);

  it('keeps a promise with tax to the minor unit per group, and its lines give themselves back', () => {
    fc.assert(
      fc.property(anInvoice, fc.constantFrom('rounding' as const, 'cent' as const), (asked, grossPolicy) => {
        const question: TaxQuestion = { ...asked, pricesInclude: 'tax', grossPolicy };
        const answer = workOutTax(question);
        expect(broken(question, answer)).toEqual([]);
        expect(Math.abs(answer.unreached.minor)).toBeLessThanOrEqual(answer.groups.length);
        expect(answer['BT-114'].minor).toBe(grossPolicy === 'cent' ? 0 : answer.unreached.minor);
      }),
      { numRuns: 2_000, seed: 226 },
    );
  }, 120_000);
});
