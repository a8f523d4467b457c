import { describe, expect, it } from 'vitest';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import {
  checkMoneyOut,
  MONEY_OUT_KIND_NAMES,
  type MoneyOut,
  type MoneyOutKind,
  toPay,
  totalsByKind,
} from '../../../src/domain/money-out/money-out.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');
const TODAY = '2026-03-02';
const aBill = (words: Partial<MoneyOut> = {}): MoneyOut => ({
  id: 'a',
  kind: 'courier',
  on: '2026-03-01',
  amount: eur('10'),
  tax: eur('2'),
  payee: 'River Carriers',
  paperNumber: '',
  what: '',
  commissionId: undefined,
  garmentId: undefined,
  garmentName: '',
  ticketId: undefined,
  of: undefined,
  reason: '',
  writtenAt: '2026-03-01T10:00:00.000Z',
  ...words,
});
const refusedOf = (words: Partial<MoneyOut> & { paidOn?: string }): string[] => {
  try {
    checkMoneyOut({ ...aBill(words), ...words }, TODAY);
    return [];
  } catch (error) {
    return (error as Invalid).fields.map(({ field }) => field);
  }
};

describe('money out', () => {
  it('refuses what cannot be meant, beside its field', () => {
    expect(refusedOf({})).toEqual([]);
    expect(refusedOf({ amount: eur('0') })).toEqual(['amount']);
    expect(refusedOf({ amount: eur('-1'), tax: eur('-1') })).toEqual(['amount', 'tax']);
    expect(refusedOf({ on: '2026-03-03' })).toEqual(['on']);
    expect(refusedOf({ paidOn: '2026-03-03' })).toEqual(['paidOn']);
    expect(refusedOf({ kind: 'outworker' })).toEqual(['garment']);
  });

  it.each(MONEY_OUT_KIND_NAMES)('%s goes to a garment or not, as its kind says', (kind: MoneyOutKind) => {
    const overhead = ['rent', 'power', 'tools', 'insurance'].includes(kind);
    expect(refusedOf({ kind, garmentId: 'g' })).toEqual(overhead ? ['garment'] : []);
    expect(refusedOf({ kind })).toEqual(kind === 'outworker' ? ['garment'] : []);
  });

  it('is to be paid with the tax that comes back', () => {
    expect(toPay(aBill()).toString()).toBe('12.00');
  });

  it('adds up by kind, a reversal taking back what it reverses', () => {
    const bills = [
      aBill(),
      aBill({ id: 'b', garmentId: 'g', amount: eur('5'), tax: eur('0') }),
      aBill({ id: 'c', kind: 'rent', amount: eur('400'), tax: eur('0') }),
      aBill({ id: 'd', of: 'c', kind: 'rent', amount: eur('-400'), tax: eur('0') }),
    ];
    expect(
      totalsByKind(bills).map(({ kind, overhead, direct, tax, count }) => [
        kind,
        overhead.toString(),
        direct.toString(),
        tax.toString(),
        count,
      ]),
    ).toEqual([
      ['rent', '0.00', '0.00', '0.00', 0],
      ['courier', '10.00', '5.00', '2.00', 2],
    ]);
    expect(totalsByKind([])).toEqual([]);
  });
});
