import { describe, expect, it } from 'vitest';
import { type Account, openOf } from '../../../../src/domain/papers/settlement/account.js';
import {
  mustFit,
  proposeParts,
  refundEntries,
  takenBack,
} from '../../../../src/domain/papers/settlement/allocating.js';
import { depositHeld, paidAhead } from '../../../../src/domain/papers/settlement/deposits-held.js';
import { eur, history, paper, payment, stand } from './a-history.js';

const words = ({ balance, owed, credit }: Account) => [balance, owed, credit].map(String);

describe('an account', () => {
  it('is settled by a part, the rest, and keeps what was too much', () => {
    const part = history(
      [paper('a', 10_000)],
      [payment('p', 4000)],
      [{ from: 'p', to: 'a', amount: eur(4000) }],
    );
    expect(words(stand(part))).toEqual(['60.00', '60.00', '0.00']);
    const rest = history(
      [...part.papers],
      [...part.payments, payment('q', 7500)],
      [...part.allocations, { from: 'q', to: 'a', amount: eur(6000) }],
    );
    expect(words(stand(rest))).toEqual(['-15.00', '0.00', '15.00']);
  });

  it('lets a credit note take off the invoice it mends, and gives back what was paid on it', () => {
    const credited = history(
      [paper('a', 10_000), paper('c', 10_000, { kind: 'credit-note', mends: ['a'] })],
      [payment('p', 10_000)],
      [{ from: 'p', to: 'a', amount: eur(10_000) }],
    );
    const account = stand(credited);
    expect(words(account)).toEqual(['-100.00', '0.00', '100.00']);
    const entries = refundEntries(account, 'r', eur(10_000));
    expect(entries).toEqual([{ from: 'r', to: 'a', amount: eur(10_000) }]);
    const after = stand({
      ...credited,
      payments: [...credited.payments, payment('r', 10_000, { kind: 'refund' })],
      allocations: [...credited.allocations, ...entries],
    });
    expect(words(after)).toEqual(['0.00', '0.00', '0.00']);
    expect(after.papers[0]?.open.toString()).toBe('0.00');
  });

  it('spreads a credit note over several invoices, and keeps one that mends nothing as credit', () => {
    const two = stand(
      history([
        paper('a', 3000),
        paper('b', 5000),
        paper('c', 4000, { kind: 'credit-note', mends: ['a', 'b'] }),
      ]),
    );
    expect(two.papers.map(({ open }) => open.toString())).toEqual(['0.00', '40.00', '0.00']);
    const alone = stand(history([paper('c', 4000, { kind: 'credit-note' })]));
    expect(words(alone)).toEqual(['-40.00', '0.00', '40.00']);
  });

  it('owes again what was given back from a payment that never came in', () => {
    const allocations = [{ from: 'p', to: 'r', amount: eur(2000) }];
    const payments = [
      payment('p', 2000, { reversedOn: '2026-03-12' }),
      payment('r', 2000, { kind: 'refund', on: '2026-03-11' }),
    ];
    const account = stand(history([], payments, [...allocations, ...takenBack('p', allocations)]));
    expect(words(account)).toEqual(['20.00', '20.00', '0.00']);
    expect(openOf(account)).toEqual([
      { number: 'Given back on 2026-03-11', due: '2026-03-11', open: eur(2000) },
    ]);
  });

  it('refuses parts that are twice, too much, of another client or nothing', () => {
    const account = stand(history([paper('a', 1000), paper('b', 2000)]));
    const refuse = (parts: [string, number][], available = 5000) => {
      const given = parts.map(([to, minor]) => ({ to, amount: eur(minor) }));
      return () => mustFit(account, eur(available), given);
    };
    expect(refuse([['a', 1001]])).toThrow('Only 10.00 is open on A.');
    expect(refuse([['x', 1]])).toThrow('not one of this client’s');
    expect(
      refuse([
        ['a', 500],
        ['a', 500],
      ]),
    ).toThrow('stands here twice');
    expect(refuse([['a', 0]])).toThrow('more than nothing');
    expect(
      refuse(
        [
          ['a', 1000],
          ['b', 2000],
        ],
        2999,
      ),
    ).toThrow('come to 30.00, and there is 29.99');
    expect(
      refuse(
        [
          ['a', 1000],
          ['b', 2000],
        ],
        3000,
      ),
    ).not.toThrow();
    expect(() => refundEntries(account, 'r', eur(1))).toThrow('Nothing is held');
  });

  it('takes the papers that were named first, then those due first', () => {
    const account = stand(
      history([
        paper('a', 1000, { due: '2026-01-01' }),
        paper('b', 2000),
        paper('c', 700, { due: '2025-01-01' }),
      ]),
    );
    expect(proposeParts(account, eur(2500), ['b']).map(({ to, amount }) => [to, amount.minor])).toEqual([
      ['b', 2000],
      ['c', 500],
    ]);
    expect(proposeParts(account, eur(9000)).map(({ to }) => to)).toEqual(['c', 'a', 'b']);
    expect(() => proposeParts(account, eur(0))).toThrow('more than nothing');
  });
});

describe('a deposit held', () => {
  it('is what was paid ahead for garments that are still here', () => {
    const account = stand(
      history(
        [paper('d', 9000, { commissionId: 'k' }), paper('f', 1000, { commissionId: 'k' })],
        [payment('p', 10_000), payment('q', 500, { commissionId: 'k' })],
        [
          { from: 'p', to: 'd', amount: eur(9000) },
          { from: 'p', to: 'f', amount: eur(1000) },
        ],
      ),
    );
    const ahead = paidAhead(account, 'k', new Set(['d']), 'EUR');
    expect(ahead.toString()).toBe('95.00');
    const garments = (...delivered: boolean[]) =>
      delivered.map((one, place) => ({ net: eur([20_000, 10_000][place]!), delivered: one }));
    expect(depositHeld(ahead, garments(false, false)).toString()).toBe('95.00');
    expect(depositHeld(ahead, garments(true, false)).toString()).toBe('31.67');
    expect(depositHeld(ahead, garments(true, true)).toString()).toBe('0.00');
    expect(depositHeld(ahead, []).toString()).toBe('95.00');
    expect(depositHeld(ahead, garments(true, false), 'first').toString()).toBe('0.00');
    expect(depositHeld(ahead, garments(true, false), 'last').toString()).toBe('95.00');
  });
});
