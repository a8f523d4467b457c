import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { creditNoteFor } from '../../../src/domain/papers/model/credit-note.js';
import { makePaper } from '../../../src/domain/papers/model/make-paper.js';
import type { Paper } from '../../../src/domain/papers/model/paper.js';
import { ciiOf } from '../../../src/printing/exchange/cii/cii.js';
import { anInvoice } from '../../domain/papers/quillmere.js';
import { faultsOfOrder, readXml } from '../../support/xml-tree.js';
import { anyPaper, examples, fullHead, money, paperOf } from './xml/papers.js';
import { plainPaper } from './xml/plain-paper.js';
import { CII_PREFIXES, readCii } from './xml/read-cii.js';
import { CII_SEQUENCES } from './xml/sequences.js';

/*
 * Syntax: UN/CEFACT Cross Industry Invoice D16B and the binding EN 16931-3-3; the order of elements is held to a list from
 * memory, since no package of the registry carries the schemas. Figures: 45 official examples, see test/reference/papers.
 */

const faults = (text: string): string[] => faultsOfOrder(readXml(text, CII_PREFIXES), CII_SEQUENCES);

/** The paper as this syntax can say it: one earlier invoice, the latest by date. */
const sayable = (paper: Paper): Paper => {
  const earlier = [...(paper['BG-3'] ?? [])].sort((a, b) =>
    (a['BT-26'] ?? '').localeCompare(b['BT-26'] ?? ''),
  );
  return { ...paper, 'BG-3': earlier.slice(-1) };
};

describe('an invoice as a Cross Industry Invoice', () => {
  it.each(examples.map((example, at) => [`${at + 1}. ${example.source}`, example] as const))(
    'says %s to the cent',
    (_name, example) => {
      const text = ciiOf(paperOf(example));
      const back = readCii(text).paper;
      expect(faults(text)).toEqual([]);
      expect(back).toEqual(plainPaper(paperOf(example)));
      expect((back['BG-25'] as { 'BT-131': string }[]).map((line) => line['BT-131'])).toEqual(
        example.lines.map((line) => money(line.net).toString()),
      );
      for (const [term, amount] of Object.entries(example.totals))
        expect((back['BG-22'] as Record<string, string>)[term] ?? '0.00').toBe(money(amount).toString());
    },
  );

  it('says every term of a full head; of several earlier invoices it cites the latest and names all in a note', () => {
    const paper = paperOf(examples[0]!, { ...fullHead(), kind: 'final-invoice' });
    const text = ciiOf(paper);
    expect(faults(text)).toEqual([]);
    const { paper: back, notes } = readCii(text);
    expect(back).toEqual(plainPaper(sayable(paper)));
    expect(back['BG-3']).toEqual([{ 'BT-25': 'I-2026-005', 'BT-26': '2026-04-06' }]);
    expect(notes).toEqual([
      'Thank you for your custom.',
      'Earlier invoices: I-2026-002 (2026-03-02); I-2026-005 (2026-04-06); I-2025-099',
    ]);
  });

  it('keeps type 381 for a credit note', () => {
    const draft = creditNoteFor(makePaper(anInvoice()), '2026-06-01', 'The buttons were wrong.');
    const credit = makePaper({ ...draft, head: { ...draft.head, 'BT-1': 'C-2026-001' } });
    expect(readCii(ciiOf(credit)).paper).toEqual(plainPaper(credit));
    expect(readCii(ciiOf(credit)).paper['BT-3']).toBe('381');
  });

  it('tells an IBAN from another account', () => {
    const text = (number: string) => ciiOf(makePaper(anInvoice({}, { 'BG-16': { 'BT-84': number } })));
    expect(text('GB82 WEST 1234 5698 7654 32')).toContain('<ram:IBANID>GB82WEST12345698765432</ram:IBANID>');
    expect(text('12 34 5')).toContain('<ram:ProprietaryID>12 34 5</ram:ProprietaryID>');
  });

  it('is the same invoice when read back, whatever the invoice', () => {
    fc.assert(
      fc.property(anyPaper, (paper) => {
        const text = ciiOf(paper);
        expect(faults(text)).toEqual([]);
        expect(readCii(text).paper).toEqual(plainPaper(sayable(paper)));
      }),
      { numRuns: 200 },
    );
  });

  it('is refused for what is no invoice, or not issued', () => {
    expect(() => ciiOf(makePaper(anInvoice({}, { kind: 'quote' })))).toThrow('Only invoices');
    expect(() => ciiOf(makePaper(anInvoice({}, { 'BT-1': undefined })))).toThrow('no number');
  });
});
