import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { mayIssue } from '../../../src/domain/papers/finding.js';
import { checkPaper } from '../../../src/domain/papers/gate/check-paper.js';
import { type DraftLine, makePaper, type PaperDraft } from '../../../src/domain/papers/model/make-paper.js';
import type { TaxCategory } from '../../../src/domain/papers/tax/category.js';
import { anInvoice, euro, haddlestone, quillmere } from './quillmere.js';

type Head = Partial<PaperDraft['head']>;
const found = (head: Head, changes: Partial<PaperDraft> = {}) =>
  checkPaper(makePaper(anInvoice(changes, head)));
const [jacket] = anInvoice().lines;
const line = (category: TaxCategory, rate?: string): DraftLine => ({
  ...jacket!,
  category,
  rate: rate === undefined ? undefined : new Decimal(rate),
});
const seller = (changes: object) => ({ 'BG-4': { ...quillmere(), ...changes } });
const buyer = (changes: object) => ({ 'BG-7': { ...haddlestone(), ...changes } });

describe('the gate', () => {
  it.each<[string, string, Head, Partial<PaperDraft>?]>([
    ['BR-02', 'number', { 'BT-1': undefined }],
    ['BR-03', 'issued', { 'BT-2': undefined }],
    ['BR-04', 'kind', { kind: 'quote' }],
    ['BR-06', 'seller.name', seller({ 'BT-27': ' ' })],
    ['BR-07', 'client.name', buyer({ 'BT-44': '' })],
    ['BR-08', 'seller.address', seller({ 'BG-5': { 'BT-40': 'IE' } })],
    ['BR-09', 'seller.country', seller({ 'BG-5': { 'BT-35': 'Ferry Lane' } })],
    ['BR-10', 'client.address', buyer({ 'BG-8': { 'BT-55': 'IE' } })],
    ['BR-11', 'client.country', buyer({ 'BG-8': { 'BT-50': 'The Hives' } })],
    ['BR-16', 'lines', {}, { lines: [] }],
    ['BR-CO-18', 'totals', {}, { lines: [] }],
    ['BR-25', 'lines.0.name', {}, { lines: [{ ...jacket!, name: '' }] }],
    ['BR-29', 'periodTo', { 'BT-73': '2026-05-04', 'BT-74': '2026-05-03' }],
    ['BR-49', 'payment.how', { 'BG-16': { 'BT-84': 'DE89370400440532013000' } }],
    ['BR-50', 'payment.account', { 'BG-16': { 'BT-81': '1', 'BT-85': 'Quillmere' } }],
    ['BR-55', 'earlier.0.number', { 'BG-3': [{ 'BT-25': '' }] }],
    ['BR-61', 'payment.account', { 'BG-16': { 'BT-81': '58' } }],
    ['BR-CO-09', 'seller.taxNumber', seller({ 'BT-31': '1234567FA' })],
    ['BR-CO-09', 'client.taxNumber', buyer({ 'BT-48': '99' })],
    [
      'BR-CO-21',
      'allowances.0.reason',
      {},
      { allowances: [{ amount: euro('1'), category: 'S', rate: new Decimal(23), reason: '' }] },
    ],
    [
      'BR-CO-22',
      'charges.0.reason',
      {},
      { charges: [{ amount: euro('1'), category: 'S', rate: new Decimal(23), reason: '' }] },
    ],
    [
      'BR-CO-23',
      'lines.0.allowances',
      {},
      { lines: [{ ...jacket!, allowances: [{ amount: euro('1'), reason: '' }] }] },
    ],
    [
      'BR-CO-24',
      'lines.0.charges',
      {},
      { lines: [{ ...jacket!, charges: [{ amount: euro('1'), reason: '' }] }] },
    ],
    ['BR-CO-25', 'due', { 'BT-9': undefined }],
    ['BR-CO-26', 'seller.registration', seller({ 'BT-30': undefined, 'BT-31': undefined, 'BT-32': '55' })],
    ['BR-S-02', 'seller.taxNumber', seller({ 'BT-31': undefined })],
    [
      'BR-S-03',
      'seller.taxNumber',
      seller({ 'BT-31': undefined }),
      { spreadDiscount: { amount: euro('5'), reason: 'for two' } },
    ],
    ['BR-S-05', 'lines.0.rate', {}, { lines: [line('S', '0')] }],
    ['BR-Z-05', 'lines.0.rate', {}, { lines: [line('Z', '5')] }],
    [
      'BR-E-02',
      'seller.taxNumber',
      seller({ 'BT-31': undefined }),
      { lines: [line('E', '0'), line('S', '23')], taxReasons: { E: 'small' } },
    ],
    ['BR-E-05', 'lines.0.rate', {}, { lines: [line('E', '5')], taxReasons: { E: 'small' } }],
    ['BR-E-10', 'taxReasons', {}, { lines: [line('E', '0')] }],
    ['BR-S-10', 'taxReasons', {}, { taxReasons: { S: 'none' } }],
    ['BR-AE-02', 'client.taxNumber', {}, { lines: [line('AE', '0')], taxReasons: { AE: 'Reverse charge' } }],
    ['BR-AE-10', 'taxReasons', buyer({ 'BT-48': 'DE999999999' }), { lines: [line('AE', '0')] }],
    [
      'BR-G-02',
      'seller.taxNumber',
      seller({ 'BT-31': undefined, 'BT-32': '55' }),
      { lines: [line('G', '0')], taxReasons: { G: 'Export' } },
    ],
    ['BR-G-10', 'taxReasons', {}, { lines: [line('G', '0')] }],
    [
      'BR-IC-02',
      'client.taxNumber',
      {},
      { lines: [line('K', '0')], taxReasons: { K: 'Intra-community supply' } },
    ],
    ['BR-IC-11', 'supplied', { 'BT-72': undefined }, { lines: [line('K', '0')], taxReasons: { K: 'Intra' } }],
    ['BR-IC-12', 'deliverToCountry', {}, { lines: [line('K', '0')], taxReasons: { K: 'Intra' } }],
    ['BR-O-02', 'seller.taxNumber', {}, { lines: [line('O')], taxReasons: { O: 'Not subject to tax' } }],
    ['BR-O-10', 'taxReasons', seller({ 'BT-31': undefined }), { lines: [line('O')] }],
    ['BR-O-11', 'totals', {}, { lines: [line('O'), line('S', '23')] }],
    ['BR-O-12', 'lines', {}, { lines: [line('O'), line('S', '23')] }],
    ['category-b', 'lines', {}, { lines: [line('B', '22')] }],
    ['date', 'issued', { 'BT-2': '2026-02-30' }],
    ['due-before-issue', 'due', { 'BT-9': '2026-05-03' }],
    ['amount-due-negative', 'totals', {}, { prepaid: euro('100000') }],
    ['credit-cites', 'earlier', { kind: 'credit-note' }],
    ['iban', 'payment.account', { 'BG-16': { 'BT-81': '58', 'BT-84': 'DE89370400440532013001' } }],
    [
      'creditor-reference',
      'payment.reference',
      { 'BG-16': { 'BT-81': '58', 'BT-84': 'DE89370400440532013000', 'BT-83': 'RF19539007547034' } },
    ],
  ])('blocks on %s at %s', (code, field, head, changes) => {
    expect(found(head, changes)).toContainEqual(expect.objectContaining({ code, field, blocks: true }));
  });

  it('asks, and does not block, where a house that charges no tax gives no number of its own', () => {
    const nameless = seller({ 'BT-30': undefined, 'BT-31': undefined });
    const asked = found(nameless, { lines: [line('E', '0')], taxReasons: { E: 'small' } });
    expect(asked.map(({ code, blocks }) => [code, blocks])).toEqual([
      ['BR-CO-26', false],
      ['BR-E-02', false],
    ]);
    const outside = found(nameless, { lines: [line('O')], taxReasons: { O: 'not subject to tax' } });
    expect(outside.map(({ code, blocks }) => [code, blocks])).toEqual([['BR-CO-26', false]]);
    expect(mayIssue(asked)).toBe(false);
    expect(mayIssue(asked, ['BR-CO-26', 'BR-E-02'])).toBe(true);
  });

  it('lets the right ones of each category through', () => {
    const client = buyer({ 'BT-48': 'DE999999999' });
    expect(found(client, { lines: [line('AE', '0')], taxReasons: { AE: 'Reverse charge' } })).toEqual([]);
    expect(
      found(
        { ...client, 'BT-80': 'DE' },
        { lines: [line('K', '0')], taxReasons: { K: 'Intra-community supply' } },
      ),
    ).toEqual([]);
    expect(found({}, { lines: [line('G', '0')], taxReasons: { G: 'Export' } })).toEqual([]);
    expect(found({}, { lines: [line('Z', '0')] })).toEqual([]);
    expect(
      found(seller({ 'BT-31': undefined, 'BT-32': '55' }), {
        lines: [line('E', '0')],
        taxReasons: { E: 'Not registered' },
      }),
    ).toEqual([]);
    expect(
      found(seller({ 'BT-31': undefined }), { lines: [line('O')], taxReasons: { O: 'Not subject to tax' } }),
    ).toEqual([]);
  });

  it('a draft whose number comes at issue is not blamed for it', () => {
    expect(checkPaper(makePaper(anInvoice({}, { 'BT-1': undefined })), { numberComes: true })).toEqual([]);
  });

  it('a currency of three decimals may be issued after a look', () => {
    const [finding] = checkPaper(
      makePaper(anInvoice({ lines: [{ ...jacket!, price: new Decimal('10.005') }] }, { 'BT-5': 'KWD' })),
    );
    expect(finding).toMatchObject({ code: 'BR-DEC-09', blocks: false });
  });

  it('the taxes of several papers may differ from tax on the whole by a unit per earlier one', () => {
    const paper = makePaper(anInvoice());
    const ask = (minor: number) =>
      checkPaper(paper, {
        stages: {
          wholeTax: paper['BG-22']['BT-110'].plus(euro('100')),
          earlierTax: Money.ofMinor(10_000 + minor, 'EUR'),
          cited: 2,
        },
      });
    expect(ask(0)).toEqual([]);
    expect(ask(2)).toEqual([expect.objectContaining({ code: 'tax-by-stages', blocks: false })]);
    expect(ask(-3)).toEqual([expect.objectContaining({ code: 'tax-by-stages', blocks: true })]);
  });
});
