import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { checkPaper } from '../../../src/domain/papers/gate/check-paper.js';
import { creditNoteFor } from '../../../src/domain/papers/model/credit-note.js';
import { makePaper } from '../../../src/domain/papers/model/make-paper.js';
import { readPaper } from '../../../src/domain/papers/model/read-paper.js';
import { anInvoice, euro } from './quillmere.js';

const discounted = () =>
  makePaper(
    anInvoice({
      spreadDiscount: { amount: euro('50'), reason: 'For waiting so long' },
      rounding: euro('0.02'),
    }),
  );

describe('a paper', () => {
  it('takes every amount from the arithmetic', () => {
    const paper = makePaper(anInvoice());
    // 11 × 3.205 = 35.255, a half away from zero; (1450.00 + 35.26) × 23 % = 341.6098
    expect(paper['BG-25'].map((line) => line['BT-131'].toString())).toEqual(['1450.00', '35.26']);
    expect(`${paper['BG-22']['BT-109']} ${paper['BG-22']['BT-110']} ${paper['BG-22']['BT-115']}`).toBe(
      '1485.26 341.61 1826.87',
    );
  });

  it('states no rate for what is not subject to tax (BR-O-05)', () => {
    const [jacket] = anInvoice().lines;
    const paper = makePaper(anInvoice({ lines: [{ ...jacket!, category: 'O', rate: new Decimal(0) }] }));
    expect(paper['BG-25'][0]?.['BT-152']).toBeUndefined();
    expect(paper['BG-23'][0]?.['BT-119']).toBeUndefined();
  });

  it('reads by plain names', () => {
    const read = readPaper(discounted());
    expect(read.title).toBe('Invoice');
    expect(read.seller.address).toEqual(['Above the bookbinder’s, Ferry Lane', 'Q1 Quillmere', 'IE']);
    expect(read.allowances[0]).toMatchObject({ reason: 'For waiting so long' });
    expect(read.totals.due.toString()).toBe('1765.39');
  });

  it('survives being kept as JSON with its amounts unchanged', () => {
    const kept = JSON.parse(JSON.stringify(makePaper(anInvoice())));
    expect(kept['BG-22']['BT-115']).toBe('1826.87');
    expect(kept['BG-25'][1]['BT-146']).toBe('3.205');
  });
});

describe('a credit note', () => {
  it('gives back the whole of an invoice with positive amounts, cites it, and passes the gate', () => {
    const invoice = discounted();
    const draft = creditNoteFor(invoice, '2026-05-20', 'The jacket was never made');
    const note = makePaper({ ...draft, head: { ...draft.head, 'BT-1': 'N-2026-001' } });
    expect(note['BT-3']).toBe('381');
    expect(note['BG-3']).toEqual([{ 'BT-25': 'I-2026-007', 'BT-26': '2026-05-04' }]);
    for (const term of ['BT-106', 'BT-107', 'BT-109', 'BT-110', 'BT-112', 'BT-115'] as const) {
      expect(note['BG-22'][term].toString(), term).toBe(invoice['BG-22'][term].toString());
    }
    expect(checkPaper(note)).toEqual([]);
  });

  it('gives back a part', () => {
    const [, buttons] = anInvoice().lines;
    const note = makePaper(creditNoteFor(discounted(), '2026-05-20', 'Buttons sent back', [buttons!]));
    expect(note['BG-22']['BT-115'].toString()).toBe('43.37');
  });

  it('is not written for a paper without a number, nor for another credit note', () => {
    expect(() => creditNoteFor(makePaper(anInvoice({}, { 'BT-1': undefined })), '2026-05-20', 'x')).toThrow(
      /issued/,
    );
    const note = makePaper(creditNoteFor(discounted(), '2026-05-20', 'x'));
    expect(() => creditNoteFor({ ...note, 'BT-1': 'N-1' }, '2026-05-21', 'x')).toThrow(/issued/);
  });
});
