import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { mayIssue } from '../../../src/domain/papers/finding.js';
import { makeQuote } from '../../../src/domain/papers/quote/make-quote.js';
import { quoteFindings } from '../../../src/domain/papers/quote/quote-findings.js';
import type { QuoteDraft } from '../../../src/domain/papers/quote/quote-paper.js';
import { aQuote, euro, quillmere } from './quillmere.js';

const found = (changes: Partial<QuoteDraft>) => quoteFindings(makeQuote(aQuote(changes)));
const [jacket] = aQuote().garments;

describe('the check page before a quote is issued', () => {
  it('finds nothing on a whole quote', () => {
    expect(found({})).toEqual([]);
    expect(mayIssue([])).toBe(true);
  });

  it.each<[string, string, Partial<QuoteDraft>]>([
    ['seller-name', 'seller.name', { seller: { ...quillmere(), 'BT-27': ' ' } }],
    ['seller-address', 'seller.address', { seller: { ...quillmere(), 'BG-5': undefined } }],
    ['seller-tax-number', 'seller.taxNumber', { seller: { ...quillmere(), 'BT-31': undefined } }],
    ['client-name', 'client.name', { client: {} }],
    ['issue-date', 'issued', { issued: undefined }],
    ['issue-date', 'issued', { issued: '2026-02-30' }],
    ['valid-until', 'validUntil', { validUntil: undefined }],
    ['valid-until', 'validUntil', { validUntil: '2026-03-02' }],
    ['valid-until', 'validUntil', { validUntil: '2026-02-30' }],
    ['agreement', 'agreement', { agreement: undefined }],
    ['hour-price', 'hourPrice', { agreement: 'time' }],
    ['no-garment', 'garments', { garments: [] }],
    ['garment-name', 'garments.0.name', { garments: [{ ...jacket!, name: '' }] }],
    ['price-negative', 'garments.0.price', { garments: [{ ...jacket!, price: euro('-1') }] }],
    ['BR-S-05', 'garments.0.rate', { garments: [{ ...jacket!, rate: new Decimal(0) }] }],
    ['BR-E-10', 'taxReasons', { garments: [{ ...jacket!, category: 'E', rate: undefined }] }],
    ['tax-unregistered', 'garments.0.category', { registeredForTax: false }],
    ['BR-33', 'discount.reason', { discount: { amount: euro('10'), reason: '' } }],
  ])('blocks on %s at %s', (code, field, changes) => {
    expect(found(changes)).toContainEqual(expect.objectContaining({ code, field, blocks: true }));
    expect(mayIssue(found(changes))).toBe(false);
  });

  it('wants a look at a garment of which only name and make say what is included', () => {
    const findings = found({ garments: [{ ...jacket!, scope: [] }] });
    expect(findings).toContainEqual(expect.objectContaining({ code: 'garment-scope-1', blocks: false }));
  });

  it('blocks what is not subject to tax beside what is', () => {
    const findings = found({
      garments: [jacket!, { ...jacket!, category: 'O', rate: undefined }],
      taxReasons: { O: 'outside the scope' },
    });
    expect(findings.map((finding) => finding.code)).toContain('BR-O-11');
  });

  it('wants a yes to a price of 0.00, and to a date before the quote, and then lets it go', () => {
    const findings = found({ garments: [{ ...jacket!, price: euro('0'), ready: '2026-03-01' }] });
    expect(findings.map((finding) => finding.blocks)).toEqual(findings.map(() => false));
    expect(findings.map((finding) => finding.field).sort()).toEqual(['garments.0.price', 'garments.0.ready']);
    expect(mayIssue(findings)).toBe(false);
    expect(
      mayIssue(
        findings,
        findings.map((finding) => finding.code),
      ),
    ).toBe(true);
  });
});
