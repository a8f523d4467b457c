import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../../../src/domain/kernel/calendar-date.js';
import { Money } from '../../../../src/domain/kernel/money.js';
import { type AccountHistory, accountOf } from '../../../../src/domain/papers/settlement/account.js';
import { statementOf } from '../../../../src/domain/papers/settlement/statement.js';

const eur = (minor: number): Money => Money.ofMinor(minor, 'EUR');
const history: AccountHistory = {
  papers: [
    {
      id: 'a',
      kind: 'invoice',
      number: 'A',
      issued: '2026-03-02',
      due: '2026-03-16',
      commissionId: undefined,
      total: eur(10_000),
      mends: [],
    },
    {
      id: 'c',
      kind: 'credit-note',
      number: 'C',
      issued: '2026-03-20',
      due: '2026-03-20',
      commissionId: undefined,
      total: eur(1000),
      mends: ['a'],
    },
  ],
  payments: [
    {
      id: 'p',
      kind: 'payment',
      on: '2026-03-02',
      amount: eur(4000),
      commissionId: undefined,
      reversedOn: '2026-03-09',
    },
    {
      id: 'q',
      kind: 'payment',
      on: '2026-03-10',
      amount: eur(9500),
      commissionId: undefined,
      reversedOn: undefined,
    },
    {
      id: 'r',
      kind: 'refund',
      on: '2026-03-25',
      amount: eur(500),
      commissionId: undefined,
      reversedOn: undefined,
    },
  ],
  allocations: [],
};

describe('a statement', () => {
  it('tells everything by date, with the balance after each', () => {
    const { before, entries, after } = statementOf(history, 'EUR');
    expect(before.toString()).toBe('0.00');
    expect(entries.map(({ on, kind, balance }) => `${on} ${kind} ${balance}`)).toEqual([
      '2026-03-02 invoice 100.00',
      '2026-03-02 payment 60.00',
      '2026-03-09 payment-reversed 100.00',
      '2026-03-10 payment 5.00',
      '2026-03-20 credit-note -5.00',
      '2026-03-25 refund 0.00',
    ]);
    expect(after.toString()).toBe('0.00');
  });

  it('of a span begins with what was owed before it', () => {
    const { before, entries, after } = statementOf(history, 'EUR', { from: '2026-03-09', to: '2026-03-20' });
    expect([before.toString(), entries.length, after.toString()]).toEqual(['60.00', 3, '-5.00']);
  });

  it('cut anywhere comes to the same, and ends with the balance of the account', () => {
    fc.assert(
      fc.property(fc.integer({ min: -5, max: 40 }), fc.integer({ min: 0, max: 40 }), (start, days) => {
        const from = addDays('2026-03-01', start);
        const to = addDays(from, days);
        const { before, entries, after } = statementOf(history, 'EUR', { from, to });
        expect(entries.reduce((sum, { amount }) => sum + amount.minor, before.minor)).toBe(after.minor);
        expect(statementOf(history, 'EUR', { to: addDays(from, -1) }).after.minor).toBe(before.minor);
      }),
    );
    expect(statementOf(history, 'EUR').after.minor).toBe(accountOf(history, 'EUR').balance.minor);
  });
});
