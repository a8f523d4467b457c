import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { makeQuote, quoteForSome } from '../../../src/domain/papers/quote/make-quote.js';
import { aQuote, euro } from './quillmere.js';

const text = (amounts: readonly { toString(): string }[]): string[] => amounts.map(String);

describe('a quote', () => {
  it('has a line per garment, its tax group and totals', () => {
    const { paper, garments } = makeQuote(aQuote());
    expect(paper['BG-25'].map((line) => `${line['BT-153']} ${line['BT-131']}`)).toEqual([
      'Jacket in hand-woven country tweed 1450.00',
      'Waistcoat 420.00',
      'Breeches 515.55',
    ]);
    // 2385.55 × 23 % = 548.6765
    expect(`${paper['BG-22']['BT-109']} ${paper['BG-22']['BT-110']} ${paper['BG-22']['BT-112']}`).toBe(
      '2385.55 548.68 2934.23',
    );
    expect(
      Money.sum(
        garments.map((garment) => garment.gross),
        'EUR',
      ).toString(),
    ).toBe('2934.23');
  });

  it('shares half of the price over the garments to the last cent', () => {
    const { deposit } = makeQuote(aQuote());
    expect(deposit.total.toString()).toBe('1467.12');
    expect(Money.sum(deposit.parts, 'EUR').toString()).toBe('1467.12');
  });

  it('asks for all materials and a share of labour, with tax, never more than the garment', () => {
    const [jacket, waistcoat, breeches] = aQuote().garments;
    const { deposit } = makeQuote(
      aQuote({
        garments: [
          { ...jacket!, materials: euro('310.00'), labour: euro('900.00') },
          { ...waistcoat!, materials: euro('9000.00'), labour: euro('0') },
          { ...breeches! },
        ],
        deposit: { rule: 'materials-and-labour', labourShare: new Decimal('0.25') },
      }),
    );
    // (310 + 225) × 1.23 = 658.05; the waistcoat stops at its own 516.60; nothing is known of the breeches.
    expect(text(deposit.parts)).toEqual(['658.05', '516.60', '0.00']);
    expect(deposit.total.toString()).toBe('1174.65');
  });

  it('refuses a deposit above the price, and a share above the whole', () => {
    expect(() => makeQuote(aQuote({ deposit: { rule: 'amount', amount: euro('3000') } }))).toThrow(
      /whole price/,
    );
    expect(() => makeQuote(aQuote({ deposit: { rule: 'share', share: new Decimal('1.01') } }))).toThrow(
      /0 to 100/,
    );
  });

  it('keeps an option out of the totals until it is taken', () => {
    const option = {
      ref: 'o',
      text: 'Inside pocket',
      price: euro('40.00'),
      category: 'S' as const,
      rate: new Decimal(23),
    };
    const offered = makeQuote(aQuote({ options: [option] }));
    expect(`${offered.options[0]?.net} ${offered.options[0]?.gross}`).toBe('40.00 49.20');
    expect(offered.paper['BG-22']['BT-109'].toString()).toBe('2385.55');
    const taken = makeQuote(aQuote({ options: [{ ...option, taken: true }] }));
    expect(taken.paper['BG-22']['BT-109'].toString()).toBe('2425.55');
  });

  it('of a house not registered for tax is exempt with its reason', () => {
    const draft = aQuote({ registeredForTax: false });
    const quote = makeQuote({
      ...draft,
      garments: draft.garments.map((garment) => ({
        ...garment,
        category: 'E' as const,
        rate: new Decimal(0),
      })),
    });
    expect(quote.taxNotes).toEqual(['Not registered for tax; no tax is charged.']);
    expect(quote.paper['BG-22']['BT-110'].isZero()).toBe(true);
  });

  it('kept with tax says where a cent went', () => {
    const [jacket] = aQuote().garments;
    const garments = [{ ...jacket!, price: euro('100.00'), rate: new Decimal(21) }];
    const quote = makeQuote(aQuote({ garments, pricesInclude: 'tax' }));
    expect(quote.paper['BG-22']['BT-115'].toString()).toBe('100.00');
    expect(quote.unreachedSentence).toMatch(/rounding amount of 0\.01/);
    const stated = makeQuote(aQuote({ garments, pricesInclude: 'tax', grossPolicy: 'cent' }));
    expect(stated.unreachedSentence).toMatch(/nearest total not above it/);
    expect(makeQuote(aQuote()).unreachedSentence).toBeUndefined();
  });

  it('accepted in part becomes the next version with those garments only', () => {
    const part = quoteForSome(aQuote(), ['j', 'b']);
    expect(part.version).toBe(2);
    expect(makeQuote(part).paper['BG-22']['BT-109'].toString()).toBe('1965.55');
  });

  it('carries no hours, cost, margin or certainty', () => {
    const [jacket] = aQuote().garments;
    const garments = [{ ...jacket!, materials: euro('310.77'), labour: euro('900.11') }];
    const kept = JSON.stringify(makeQuote(aQuote({ garments })));
    expect(kept).not.toMatch(/"(minutes|hours|cost|margin|profit|certainty)"|310\.77|900\.11/);
  });

  it('adds up for any prices, rates, discount and deposit', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 900_000 }), fc.constantFrom(23, 13.5, 9)), {
          minLength: 1,
          maxLength: 12,
        }),
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 0, max: 100 }),
        fc.constantFrom('none' as const, 'tax' as const),
        (prices, percent, off, pricesInclude) => {
          const [one] = aQuote().garments;
          const whole = prices.reduce((sum, [price]) => sum + price, 0);
          const quote = makeQuote(
            aQuote({
              garments: prices.map(([price, rate], index) => ({
                ...one!,
                ref: String(index),
                price: Money.ofMinor(price, 'EUR'),
                rate: new Decimal(rate),
              })),
              discount: {
                amount: Money.ofMinor(Math.floor((whole * off) / 100), 'EUR'),
                reason: 'for the three',
              },
              deposit: { rule: 'share', share: new Decimal(percent).div(100) },
              pricesInclude,
            }),
          );
          const sum = (all: readonly Money[]): string => Money.sum(all, 'EUR').toString();
          const due = quote.paper['BG-22']['BT-115'];
          expect(sum(quote.garments.map((garment) => garment.gross))).toBe(due.toString());
          expect(sum(quote.garments.map((garment) => garment.deposit))).toBe(quote.deposit.total.toString());
          expect(quote.deposit.total.toString()).toBe(
            due.timesRounded(new Decimal(percent).div(100)).toString(),
          );
        },
      ),
      { numRuns: 200 },
    );
  });
});
