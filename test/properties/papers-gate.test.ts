import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../src/domain/kernel/decimal.js';
import { Money } from '../../src/domain/kernel/money.js';
import { checkPaper } from '../../src/domain/papers/gate/check-paper.js';
import { makePaper, type PaperDraft } from '../../src/domain/papers/model/make-paper.js';
import type { Paper } from '../../src/domain/papers/model/paper.js';
import { anInvoice } from '../domain/papers/quillmere.js';

const aDraft: fc.Arbitrary<PaperDraft> = fc
  .record({
    lines: fc.array(
      fc.record({
        quantity: fc.integer({ min: 1, max: 30_000 }),
        price: fc.integer({ min: 0, max: 90_000_000 }),
        kind: fc.constantFrom(['S', 23] as const, ['S', 13.5] as const, ['Z', 0] as const, ['E', 0] as const),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    off: fc.integer({ min: 0, max: 99 }),
    pricesInclude: fc.constantFrom('none' as const, 'tax' as const),
    grossPolicy: fc.constantFrom('rounding' as const, 'cent' as const),
  })
  .map(({ lines, off, ...rest }) => {
    const draft = anInvoice({
      ...rest,
      taxReasons: { E: 'Teaching' },
      lines: lines.map(({ quantity, price, kind }) => ({
        name: 'Alteration',
        quantity: new Decimal(quantity).div(1000),
        unit: 'hour',
        price: new Decimal(price).div(10_000),
        category: kind[0],
        rate: new Decimal(kind[1]),
      })),
    });
    const whole = makePaper(draft)['BG-22']['BT-109'].minor;
    return {
      ...draft,
      spreadDiscount: { amount: Money.ofMinor(Math.floor((whole * off) / 100), 'EUR'), reason: 'A kindness' },
    };
  });

const blocking = (paper: Paper): string[] =>
  checkPaper(paper)
    .filter((finding) => finding.blocks)
    .map((finding) => finding.code);

/** Moves one stated amount of a paper by a cent. */
const moved = (paper: Paper, which: number, cents: number): Paper => {
  const by = (amount: Money): Money => amount.plus(Money.ofMinor(cents, 'EUR'));
  const terms = [
    'BT-106',
    'BT-107',
    'BT-108',
    'BT-109',
    'BT-110',
    'BT-112',
    'BT-113',
    'BT-114',
    'BT-115',
  ] as const;
  const term = terms[which];
  if (term) return { ...paper, 'BG-22': { ...paper['BG-22'], [term]: by(paper['BG-22'][term]) } };
  const [group, ...groups] = paper['BG-23'];
  const [line, ...lines] = paper['BG-25'];
  if (which === 9) return { ...paper, 'BG-23': [{ ...group!, 'BT-116': by(group!['BT-116']) }, ...groups] };
  if (which === 10) return { ...paper, 'BG-23': [{ ...group!, 'BT-117': by(group!['BT-117']) }, ...groups] };
  return { ...paper, 'BG-25': [{ ...line!, 'BT-131': by(line!['BT-131']) }, ...lines] };
};

describe('the gate on random papers', () => {
  it('passes every paper the arithmetic made, and catches any one amount that is a cent off', () => {
    fc.assert(
      fc.property(aDraft, fc.integer({ min: 0, max: 11 }), fc.constantFrom(-1, 1), (draft, which, cents) => {
        const paper = makePaper(draft);
        expect(blocking(paper)).toEqual([]);
        expect(blocking(moved(paper, which, cents)).length).toBeGreaterThan(0);
      }),
      { numRuns: 500, seed: 17 },
    );
  }, 120_000);
});
