import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid, OutOfRange } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { depositOf } from '../../../src/domain/pricing/deposit.js';

const d = (text: string) => new Decimal(text);
const eur = (text: string) => Money.parse(text, 'EUR');
const words = (deposit: { amount: Money; byGarment: readonly Money[] }) =>
  `${deposit.amount}: ${deposit.byGarment.join(' ')}`;

describe('a deposit', () => {
  it('is a share of the price, shared to the last cent', () => {
    const garments = ['100.01', '100.01', '100.01'].map((price) => ({ price: eur(price) }));
    expect(words(depositOf({ kind: 'share-of-price', share: d('0.5') }, garments))).toBe(
      '150.02: 50.01 50.01 50.00',
    );
  });

  it('is all the materials and a share of the labour, each garment its own', () => {
    const garments = [
      { price: eur('1000'), materials: eur('239.20'), labour: eur('600') },
      { price: eur('400'), materials: eur('20.05'), labour: eur('300.01') },
    ];
    expect(words(depositOf({ kind: 'materials-and-labour', labourShare: d('0.25') }, garments))).toBe(
      '484.25: 389.20 95.05',
    );
  });

  it('never asks more for a garment than its price', () => {
    const garments = [{ price: eur('100'), materials: eur('90'), labour: eur('60') }];
    expect(words(depositOf({ kind: 'materials-and-labour', labourShare: d('0.5') }, garments))).toBe(
      '100.00: 100.00',
    );
  });

  it('asks nothing for a courtesy', () => {
    expect(words(depositOf({ kind: 'share-of-price', share: d('0.5') }, [{ price: eur('0') }]))).toBe(
      '0.00: 0.00',
    );
  });

  it('refuses no garments, and shares beyond the whole', () => {
    expect(() => depositOf({ kind: 'share-of-price', share: d('0.5') }, [])).toThrow(Invalid);
    const one = [{ price: eur('10'), labour: eur('1') }];
    expect(() => depositOf({ kind: 'share-of-price', share: d('1.01') }, one)).toThrow(OutOfRange);
    expect(() => depositOf({ kind: 'materials-and-labour', labourShare: d('-0.1') }, one)).toThrow(
      OutOfRange,
    );
  });
});
