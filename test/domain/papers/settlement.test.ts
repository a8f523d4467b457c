import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { checkPaper } from '../../../src/domain/papers/gate/check-paper.js';
import { makePaper, type PaperDraft } from '../../../src/domain/papers/model/make-paper.js';
import type { Paper } from '../../../src/domain/papers/model/paper.js';
import { makeQuote } from '../../../src/domain/papers/quote/make-quote.js';
import {
  allocatePayment,
  amountIssued,
  balanceOf,
  owedByAge,
} from '../../../src/domain/papers/settlement/balance.js';
import { type DepositTaking, takeDeposit } from '../../../src/domain/papers/settlement/deductions.js';
import {
  depositDraft,
  finalInvoice,
  netDraft,
  withPrepaid,
} from '../../../src/domain/papers/settlement/stages.js';
import { anInvoice, aQuote, euro } from './quillmere.js';

const { kind: _kind, ...head } = anInvoice().head;
const garments = aQuote().garments;
const whole = (changes: Partial<PaperDraft> = {}): PaperDraft =>
  anInvoice({
    lines: garments.map((garment) => ({
      name: garment.name,
      quantity: new Decimal(1),
      unit: 'piece',
      price: garment.price.toDecimal(),
      category: 'S',
      rate: garment.rate,
    })),
    ...changes,
  });
const deposit = (): Paper =>
  makePaper(
    depositDraft(makeQuote(aQuote()), {
      ...head,
      'BT-1': 'D-2026-004',
      'BT-2': '2026-03-09',
      'BT-9': '2026-03-23',
    }),
  );

describe('a deposit with tax', () => {
  it('is an invoice of type 386 for the very amount quoted, and passes the gate', () => {
    const paper = deposit();
    expect(paper['BT-3']).toBe('386');
    expect(paper['BG-22']['BT-115'].toString()).toBe('1467.12');
    expect(checkPaper(paper).filter((finding) => finding.blocks)).toEqual([]);
  });

  it('comes off the final invoice with its tax, citing its number; all papers come to the price', () => {
    const { paper, drift } = finalInvoice(whole(), [deposit()]);
    expect(paper['BG-3']).toEqual([{ 'BT-25': 'D-2026-004', 'BT-26': '2026-03-09' }]);
    expect(paper['BG-25'].at(-1)?.['BT-129'].toString()).toBe('-1');
    expect(paper['BG-25'].at(-1)?.['BT-153']).toContain('D-2026-004');
    const net = deposit()['BG-22']['BT-109'].plus(paper['BG-22']['BT-109']);
    expect(net.toString()).toBe('2385.55');
    const asked = amountIssued(deposit()).plus(amountIssued(paper));
    expect(asked.minus(drift).toString()).toBe('2934.23');
    expect(checkPaper(paper).filter((finding) => finding.blocks)).toEqual([]);
  });

  it('never needs more than a unit per earlier invoice and rate, for any prices and parts; the nets add up exactly', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 500_000 }), fc.constantFrom(23, 13.5, 0.1)), {
          minLength: 1,
          maxLength: 5,
        }),
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 3 }),
        (prices, percents) => {
          const lines = (share: Decimal) =>
            prices.map(([price, rate]) => ({
              name: 'Garment',
              quantity: new Decimal(1),
              unit: 'piece' as const,
              price: new Decimal(price).times(share).div(100).toDecimalPlaces(2),
              category: 'S' as const,
              rate: new Decimal(rate),
            }));
          const earlier = percents.map((percent, index) =>
            makePaper(
              anInvoice(
                { lines: lines(new Decimal(percent).div(100)) },
                { kind: 'part-invoice', 'BT-1': `P-${index}` },
              ),
            ),
          );
          const draft = anInvoice({ lines: lines(new Decimal(1)) });
          const last = finalInvoice(draft, earlier);
          const sum = (term: 'BT-109' | 'BT-110'): Money =>
            Money.sum(
              [...earlier, last.paper].map((paper) => paper['BG-22'][term]),
              'EUR',
            );
          const all = makePaper(draft)['BG-22'];
          const rates = new Set(prices.map(([, rate]) => rate)).size;
          expect(sum('BT-109').toString()).toBe(all['BT-109'].toString());
          expect(sum('BT-110').minus(last.drift).toString()).toBe(all['BT-110'].toString());
          expect(Math.abs(last.drift.minor)).toBeLessThanOrEqual(earlier.length * rates);
          expect(last.driftSentence === undefined).toBe(last.drift.isZero());
        },
      ),
      { numRuns: 200 },
    );
  });

  it('asks that prices kept with tax are turned into net lines first, and then keeps the promise', () => {
    const kept = whole({ pricesInclude: 'tax' });
    expect(() => finalInvoice(kept, [deposit()])).toThrow(/net lines/);
    expect(makePaper(netDraft(kept))['BG-22']['BT-115'].toString()).toBe('2385.55');
  });
});

describe('a deposit as a payment on account', () => {
  it('stands as prepaid and leaves the tax whole', () => {
    const paper = makePaper(withPrepaid(whole(), [euro('1000'), euro('467.12')]));
    expect(`${paper['BG-22']['BT-110']} ${paper['BG-22']['BT-113']} ${paper['BG-22']['BT-115']}`).toBe(
      '548.68 1467.12 1467.11',
    );
    const owed = balanceOf(
      [
        { kind: 'paid', amount: euro('1000') },
        { kind: 'paid', amount: euro('467.12') },
        { kind: 'issued', amount: amountIssued(paper) },
      ],
      'EUR',
    );
    expect(owed.toString()).toBe(paper['BG-22']['BT-115'].toString());
  });
});

describe('taking a deposit as garments leave', () => {
  const nets = [euro('100'), euro('50'), euro('30')];
  it.each<[DepositTaking, string[]]>([
    ['shared', ['66.67', '33.33', '20.00']],
    ['first', ['100.00', '20.00', '0.00']],
    ['last', ['40.00', '50.00', '30.00']],
  ])('%s', (how, parts) => {
    expect(takeDeposit(euro('120'), nets, how).map(String)).toEqual(parts);
  });

  it('always adds up', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9_999 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 40_000 }),
        fc.constantFrom<DepositTaking>('shared', 'first', 'last'),
        (minors, whole, how) => {
          const parts = takeDeposit(
            Money.ofMinor(whole, 'EUR'),
            minors.map((minor) => Money.ofMinor(minor, 'EUR')),
            how,
          );
          expect(Money.sum(parts, 'EUR').minor).toBe(whole);
          const all = minors.reduce((sum, minor) => sum + minor, 0);
          if (whole <= all)
            expect(parts.every((part, index) => part.minor <= (minors[index] ?? 0))).toBe(true);
        },
      ),
    );
  });
});

describe('who owes what', () => {
  it('is what was issued, less credited, less paid, plus given back', () => {
    const balance = balanceOf(
      [
        { kind: 'issued', amount: euro('1000') },
        { kind: 'credited', amount: euro('100') },
        { kind: 'paid', amount: euro('950') },
        { kind: 'refunded', amount: euro('20') },
      ],
      'EUR',
    );
    expect(balance.toString()).toBe('-30.00');
  });

  const open = [
    { number: 'I-3', due: '2026-06-01', open: euro('30') },
    { number: 'I-1', due: '2026-01-10', open: euro('50') },
    { number: 'I-2', due: '2026-04-15', open: euro('20') },
  ];

  it('a payment settles what was due first, in part if it must; what is too much stays with the client', () => {
    expect(allocatePayment(euro('60'), open).parts.map((part) => `${part.number} ${part.amount}`)).toEqual([
      'I-1 50.00',
      'I-2 10.00',
    ]);
    expect(allocatePayment(euro('150'), open).over.toString()).toBe('50.00');
    expect(() => allocatePayment(euro('0'), open)).toThrow(/more than nothing/);
  });

  it('by age', () => {
    expect(owedByAge(open, '2026-05-04', 'EUR').map(({ age, amount }) => `${age}: ${amount}`)).toEqual([
      'not yet due: 30.00',
      '1 to 30 days: 20.00',
      '31 to 60 days: 0.00',
      '61 to 90 days: 0.00',
      'over 90 days: 50.00',
    ]);
  });
});
