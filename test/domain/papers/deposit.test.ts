import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { OutOfRange } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { type DepositBasis, depositOf } from '../../../src/domain/papers/quote/deposit.js';

const d = (text: string) => new Decimal(text);
const eur = (text: string) => Money.parse(text, 'EUR');
const words = (deposit: { total: Money; parts: readonly Money[] }) =>
  `${deposit.total}: ${deposit.parts.join(' ')}`;

const untaxed = (gross: string, more: Partial<DepositBasis> = {}): DepositBasis => ({
  gross: eur(gross),
  grossFactor: d('1'),
  ...more,
});

describe('a deposit', () => {
  it('is a share of the price, shared to the last cent', () => {
    const garments = ['100.01', '100.01', '100.01'].map((price) => untaxed(price));
    expect(words(depositOf({ rule: 'share', share: d('0.5') }, eur('300.03'), garments))).toBe(
      '150.02: 50.01 50.01 50.00',
    );
  });

  it('is all the materials and a share of the labour, each garment its own', () => {
    const garments = [
      untaxed('1000', { materials: eur('239.20'), labour: eur('600') }),
      untaxed('400', { materials: eur('20.05'), labour: eur('300.01') }),
    ];
    const rule = { rule: 'materials-and-labour', labourShare: d('0.25') } as const;
    expect(words(depositOf(rule, eur('1400'), garments))).toBe('484.25: 389.20 95.05');
  });

  it('carries the tax of what it is for', () => {
    const garments = [{ ...untaxed('121', { materials: eur('50') }), grossFactor: d('1.21') }];
    const rule = { rule: 'materials-and-labour', labourShare: d('0') } as const;
    expect(words(depositOf(rule, eur('121'), garments))).toBe('60.50: 60.50');
  });

  it('never asks more for a garment than its price', () => {
    const garments = [untaxed('100', { materials: eur('90'), labour: eur('60') })];
    const rule = { rule: 'materials-and-labour', labourShare: d('0.5') } as const;
    expect(words(depositOf(rule, eur('100'), garments))).toBe('100.00: 100.00');
  });

  it('asks nothing for a courtesy, and refuses shares beyond the whole', () => {
    expect(words(depositOf({ rule: 'share', share: d('0.5') }, eur('0'), [untaxed('0')]))).toBe('0.00: 0.00');
    expect(() => depositOf({ rule: 'share', share: d('1.01') }, eur('10'), [untaxed('10')])).toThrow(
      OutOfRange,
    );
    expect(() => depositOf({ rule: 'amount', amount: eur('11') }, eur('10'), [untaxed('10')])).toThrow(
      OutOfRange,
    );
  });
});
