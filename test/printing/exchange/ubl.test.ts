import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { creditNoteFor } from '../../../src/domain/papers/model/credit-note.js';
import { makePaper } from '../../../src/domain/papers/model/make-paper.js';
import { ublOf } from '../../../src/printing/exchange/ubl/ubl.js';
import { anInvoice } from '../../domain/papers/quillmere.js';
import { faultsOfOrder, readXml, type XmlNode } from '../../support/xml-tree.js';
import { anyPaper, examples, fullHead, money, paperOf } from './xml/papers.js';
import { plainPaper } from './xml/plain-paper.js';
import { readUbl, UBL_PREFIXES } from './xml/read-ubl.js';
import { UBL_SEQUENCES } from './xml/sequences.js';

/*
 * Syntax: OASIS UBL 2.1 (2013) and the binding EN 16931-3-2; the order of elements is held to a list from memory, since no
 * package of the registry carries the schemas. Figures: 45 official examples, see test/reference/papers.
 */

/** Every faulty value: dates, amounts without their currency, quantities without a unit. */
const faultyValues = (node: XmlNode, currency: string, decimals: number): string[] => {
  const name = node.name.replace('cbc:', '');
  const faults: string[] = [];
  if (/Date$/.test(name) && !/^\d{4}-\d\d-\d\d$/.test(node.text)) faults.push(`${name} ${node.text}`);
  if (/Amount$/.test(name)) {
    const shape =
      name === 'PriceAmount'
        ? /^\d+(\.\d+)?$/
        : new RegExp(`^-?\\d+${decimals ? `\\.\\d{${decimals}}` : ''}$`);
    if (!shape.test(node.text) || node.attributes.currencyID !== currency)
      faults.push(`${name} ${node.text} ${node.attributes.currencyID}`);
  }
  if (
    /Quantity$/.test(name) &&
    (!/^-?\d+(\.\d+)?$/.test(node.text) || !/^[A-Z0-9]{2,3}$/.test(node.attributes.unitCode ?? ''))
  )
    faults.push(`${name} ${node.text} ${node.attributes.unitCode}`);
  if (node.children.length === 0 && node.text.trim() === '') faults.push(`${name} is empty`);
  return [...faults, ...node.children.flatMap((child) => faultyValues(child, currency, decimals))];
};

const faults = (text: string, currency = 'EUR', decimals = 2): string[] => {
  const root = readXml(text, UBL_PREFIXES);
  return [...faultsOfOrder(root, UBL_SEQUENCES), ...faultyValues(root, currency, decimals)];
};

describe('an invoice in UBL 2.1', () => {
  it.each(examples.map((example, at) => [`${at + 1}. ${example.source}`, example] as const))(
    'says %s to the cent',
    (_name, example) => {
      const text = ublOf(paperOf(example));
      const back = readUbl(text);
      expect(faults(text)).toEqual([]);
      expect(back).toEqual(plainPaper(paperOf(example)));
      expect((back['BG-25'] as { 'BT-131': string }[]).map((line) => line['BT-131'])).toEqual(
        example.lines.map((line) => money(line.net).toString()),
      );
      for (const [term, amount] of Object.entries(example.totals))
        expect((back['BG-22'] as Record<string, string>)[term] ?? '0.00').toBe(money(amount).toString());
      const groups = (back['BG-23'] as Record<string, string>[]).map(
        (group) =>
          `${group['BT-118']} ${Number(group['BT-119'] ?? 0)}: ${group['BT-116']} -> ${group['BT-117']}`,
      );
      expect(groups.sort()).toEqual(
        example.vat
          .map(
            (each) => `${each.category} ${Number(each.rate ?? 0)}: ${money(each.base)} -> ${money(each.tax)}`,
          )
          .sort(),
      );
    },
  );

  it('says every term of a full head, and every earlier invoice', () => {
    const paper = paperOf(examples[0]!, { ...fullHead(), kind: 'final-invoice' });
    const text = ublOf(paper);
    expect(faults(text)).toEqual([]);
    const back = readUbl(text);
    expect(back).toEqual(plainPaper(paper));
    expect(back['BG-3']).toHaveLength(3);
    expect(text).toContain('unitCode="C62"');
  });

  it('becomes a credit note for type 381, with positive amounts and the invoice cited', () => {
    const invoice = makePaper(anInvoice({}, { ...fullHead(), 'BG-3': undefined }));
    const draft = creditNoteFor(invoice, '2026-06-01', 'The buttons were wrong.');
    const credit = makePaper({
      ...draft,
      head: { ...draft.head, 'BT-1': 'C-2026-001', 'BT-9': '2026-06-15' },
    });
    const text = ublOf(credit);
    expect(readXml(text, UBL_PREFIXES).name).toBe('cn:CreditNote');
    expect(faults(text)).toEqual([]);
    const back = readUbl(text);
    expect(back).toEqual(plainPaper(credit));
    expect(back).toMatchObject({ 'BT-3': '381', 'BT-9': '2026-06-15', 'BG-3': [{ 'BT-25': 'I-2026-007' }] });
    expect(back['BG-22']).toEqual((plainPaper(invoice) as typeof back)['BG-22']);
  });

  it('carries code 386 for a deposit and 326 for a part', () => {
    const code = (kind: 'deposit-invoice' | 'part-invoice') =>
      readUbl(ublOf(makePaper(anInvoice({}, { kind }))))['BT-3'];
    expect([code('deposit-invoice'), code('part-invoice')]).toEqual(['386', '326']);
  });

  it('writes an IBAN without blanks and another account as it stands', () => {
    const account = (number: string) =>
      readUbl(ublOf(makePaper(anInvoice({}, { 'BG-16': { 'BT-84': number } }))))['BG-16'] as object;
    expect(account('gb82 WEST 1234 5698 7654 32')).toEqual({
      'BT-81': '30',
      'BT-84': 'GB82WEST12345698765432',
    });
    expect(account('12 34 5')).toEqual({ 'BT-81': '30', 'BT-84': '12 34 5' });
  });

  it('names no instrument where a credit note has a due date alone: the date needs one to stand by', () => {
    const back = readUbl(ublOf(makePaper(anInvoice({}, { kind: 'credit-note' }))));
    expect(back).toMatchObject({ 'BT-9': '2026-05-18', 'BG-16': { 'BT-81': '1' } });
  });

  it('is the same invoice when read back, whatever the invoice', () => {
    fc.assert(
      fc.property(anyPaper, (paper) => {
        const text = ublOf(paper);
        const decimals = { EUR: 2, JPY: 0, KWD: 3 }[paper['BT-5']] ?? 2;
        expect(faults(text, paper['BT-5'], decimals)).toEqual([]);
        expect(readUbl(text)).toEqual(plainPaper(paper));
      }),
      { numRuns: 200 },
    );
  });

  it('is refused for what is no invoice, or not issued', () => {
    expect(() => ublOf(makePaper(anInvoice({}, { kind: 'quote' })))).toThrow('Only invoices');
    expect(() => ublOf(makePaper(anInvoice({}, { 'BT-1': ' ' })))).toThrow('no number');
    expect(() => ublOf(makePaper(anInvoice({}, { 'BT-2': undefined })))).toThrow('no date');
    expect(() => ublOf(makePaper(anInvoice({ lines: [] })))).toThrow('no line');
  });

  it('holds a thousand lines', () => {
    const line = anInvoice().lines[0]!;
    const text = ublOf(makePaper(anInvoice({ lines: Array.from({ length: 1000 }, () => line) })));
    expect(readUbl(text)['BG-25']).toHaveLength(1000);
  });
});
