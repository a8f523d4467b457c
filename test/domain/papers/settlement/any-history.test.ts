import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import {
  type Allocated,
  commissionBalance,
  openOf,
} from '../../../../src/domain/papers/settlement/account.js';
import {
  movedEntries,
  mustFit,
  proposeParts,
  refundEntries,
  takenBack,
} from '../../../../src/domain/papers/settlement/allocating.js';
import { owedByAge } from '../../../../src/domain/papers/settlement/balance.js';
import { eur, history, paper, payment, stand } from './a-history.js';

/** What somebody does next; numbers choose among what is possible. */
const step = fc.record({
  does: fc.constantFrom('issue', 'credit', 'pay', 'pay', 'refund', 'reverse', 'move'),
  minor: fc.integer({ min: 1, max: 90_000 }),
  which: fc.nat(1000),
  commission: fc.constantFrom(undefined, 'k', 'l'),
});

describe('any history', () => {
  it('keeps balance = Σ issued − Σ credited − Σ paid + Σ given back = owed − credit, by client and by commission', () => {
    let moved = 0;
    let refunded = 0;
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        let now = history([]);
        // Counted apart, by plain addition, and never through the code under test.
        let expected = 0;
        for (const [place, { does, minor, which, commission }] of steps.entries()) {
          const id = `${does}${place}`;
          const account = stand(now);
          const invoices = now.papers.filter(({ kind }) => kind === 'invoice');
          const standing = account.payments.filter(({ reversedOn }) => reversedOn === undefined);
          if (does === 'issue') {
            now = { ...now, papers: [...now.papers, paper(id, minor, { commissionId: commission })] };
            expected += minor;
          } else if (does === 'credit') {
            const mended = invoices[which % Math.max(1, invoices.length)];
            const of = mended?.commissionId;
            const note = paper(id, minor, {
              kind: 'credit-note',
              mends: mended ? [mended.id] : [],
              commissionId: of,
            });
            now = { ...now, papers: [...now.papers, note] };
            expected -= minor;
          } else if (does === 'pay') {
            const parts = which % 3 === 0 ? [] : proposeParts(account, eur(minor));
            mustFit(account, eur(minor), parts);
            now = {
              ...now,
              payments: [...now.payments, payment(id, minor, { commissionId: commission })],
              allocations: [...now.allocations, ...parts.map((part) => ({ from: id, ...part }))],
            };
            expected -= minor;
          } else if (does === 'refund' && account.credit.minor > 0) {
            const back = 1 + (minor % account.credit.minor);
            let entries: Allocated[];
            try {
              entries = refundEntries(account, id, eur(back));
            } catch {
              // What is held may stand in a credit note that mends nothing; that is refused, never lost.
              continue;
            }
            refunded += 1;
            now = {
              ...now,
              payments: [...now.payments, payment(id, back, { kind: 'refund' })],
              allocations: [...now.allocations, ...entries],
            };
            expected += back;
          } else if (does === 'reverse' && standing.length > 0) {
            const gone = standing[which % standing.length]!;
            now = {
              ...now,
              payments: now.payments.map((one) =>
                one.id === gone.id ? { ...one, reversedOn: '2026-04-01' } : one,
              ),
              allocations: [...now.allocations, ...takenBack(gone.id, now.allocations)],
            };
            expected += gone.kind === 'payment' ? gone.amount.minor : -gone.amount.minor;
          } else if (does === 'move') {
            const from = standing.find(({ kind }) => kind === 'payment');
            if (!from) continue;
            const freed = movedEntries(account, from, now.allocations, []);
            const loose = { ...now, allocations: [...now.allocations, ...freed] };
            const left = stand(loose).payments.find(({ id: one }) => one === from.id)!.left;
            const parts = left.minor > 0 ? proposeParts(stand(loose), left) : [];
            const entries = movedEntries(account, from, now.allocations, parts);
            moved += 1;
            now = { ...now, allocations: [...now.allocations, ...entries] };
          }
          const after = stand(now);
          expect(after.balance.minor).toBe(expected);
          expect(after.owed.minus(after.credit).minor).toBe(expected);
          expect(
            [undefined, 'k', 'l'].reduce((sum, one) => sum + commissionBalance(after, one, 'EUR').minor, 0),
          ).toBe(expected);
          for (const one of after.payments) expect(one.left.minor).toBeGreaterThanOrEqual(0);
          const ages = owedByAge(openOf(after), '2026-05-01', 'EUR');
          expect(
            Money.sum(
              ages.map(({ amount }) => amount),
              'EUR',
            ).minor,
          ).toBe(after.owed.minor);
        }
      }),
      { numRuns: 300 },
    );
    expect([moved > 50, refunded > 50]).toEqual([true, true]);
  });
});
