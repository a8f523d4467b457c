import { describe, expect, it } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import {
  type MatchPaper,
  matchIndex,
  proposeMatches,
} from '../../../../src/domain/papers/bank/propose-matches.js';
import {
  creditorReference,
  referenceInFours,
} from '../../../../src/domain/papers/payment/creditor-reference.js';

const eur = (minor: number): Money => Money.ofMinor(minor, 'EUR');

describe('proposals', () => {
  const papers: MatchPaper[] = [
    { id: 'a', number: 'F-2026-001', clientId: 'corvin', open: eur(10_000) },
    { id: 'b', number: 'F-2026-002', clientId: 'corvin', open: eur(5000) },
    { id: 'c', number: 'F-2026-003', clientId: 'maud', open: eur(10_000) },
    { id: 'd', number: 'F-2026-004', clientId: 'maud', open: eur(0) },
  ];
  const index = matchIndex(papers, [
    { id: 'corvin', name: 'Corvin Haddlestone' },
    { id: 'maud', name: 'Maud Ellery-Pike' },
  ]);
  const propose = (minor: number, words: string, payer = '') =>
    proposeMatches({ place: 1, on: '2026-03-02', amount: eur(minor), payer, words }, index);
  const told = (...asked: Parameters<typeof propose>) =>
    propose(...asked).map(({ clientId, papers: of, sureness }) => [clientId, of.join(), sureness]);

  it('know a creditor reference however it is spaced, and say what they saw', () => {
    const reference = creditorReference('F-2026-001');
    for (const words of [
      reference,
      referenceInFours(reference),
      `paid ${reference} thank you`,
      reference.toLowerCase(),
    ])
      expect(told(10_000, words)[0]).toEqual(['corvin', 'a', 'sure']);
    expect(propose(10_000, reference)[0]?.why).toEqual([
      'The creditor reference of F-2026-001 stands in the words.',
      'The amount is just what is open.',
    ]);
    expect(told(9999, reference)[0]).toEqual(['corvin', 'a', 'nearly']);
    expect(propose(10_001, reference)[0]?.why[1]).toContain('the rest would be held');
  });

  it('know a number however it is written, and never a part of a longer one', () => {
    for (const words of ['F-2026-002', 'invoice f 2026 002', 'F2026002', 'F/2026/002.'])
      expect(told(5000, words)[0]).toEqual(['corvin', 'b', 'sure']);
    expect(told(123, 'F-2026-0021')).toEqual([]);
    expect(told(123, 'XF-2026-002')).toEqual([]);
    expect(told(15_000, 'F-2026-001 and F-2026-002')[0]).toEqual(['corvin', 'a,b', 'sure']);
    expect(propose(700, 'F-2026-004')[0]?.why[1]).toContain('Nothing is open on it any more');
  });

  it('go by amount and name, and are careful with either alone', () => {
    expect(told(10_000, '', 'HADDLESTONE, CORVIN')).toEqual([
      ['corvin', 'a', 'likely'],
      ['maud', 'c', 'perhaps'],
    ]);
    expect(told(15_000, '', 'Corvin Haddlestone')[0]).toEqual(['corvin', 'a,b', 'likely']);
    expect(told(123, '', 'Maud Ellery Pike')).toEqual([['maud', '', 'perhaps']]);
    expect(told(123, '', 'Corvin')).toEqual([]);
    expect(propose(10_000, '')[0]?.why[0]).toContain('2 papers are open for as much');
  });

  it('are none for money that went out', () => {
    expect(propose(-10_000, 'F-2026-001')).toEqual([]);
  });

  it('take a moment for 20,000 lines against 5,000 papers', () => {
    const many = Array.from({ length: 5000 }, (_, place) => ({
      id: `p${place}`,
      number: `F-2026-${String(place).padStart(4, '0')}`,
      clientId: `c${place % 700}`,
      open: eur(1000 + (place % 300)),
    }));
    const big = matchIndex(
      many,
      Array.from({ length: 700 }, (_, place) => ({
        id: `c${place}`,
        name: `Odalys${place % 50} Sempstress${place}`,
      })),
    );
    const began = performance.now();
    let found = 0;
    for (let place = 0; place < 20_000; place += 1)
      found += proposeMatches(
        {
          place,
          on: '2026-03-02',
          amount: eur(1000 + (place % 900)),
          payer: `Odalys${place % 50} Sempstress${place % 900}`,
          words: `PAYMENT F-2026-${String(place % 9000).padStart(4, '0')} ${'word '.repeat(10)}`,
        },
        big,
      ).length;
    expect(found).toBeGreaterThan(20_000);
    expect(performance.now() - began).toBeLessThan(20_000);
  });
});
