import { describe, expect, it } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import { makePaper } from '../../../../src/domain/papers/model/make-paper.js';
import type { PaperHead } from '../../../../src/domain/papers/model/paper.js';
import { type EpcTransfer, epcOffer, epcPayload } from '../../../../src/domain/papers/payment/epc-payload.js';
import { anInvoice, euro } from '../quillmere.js';

/* European Payments Council, EPC069-12: elements, lengths and the 331 bytes. Element order from memory. */

const transfer: EpcTransfer = {
  name: 'Quillmere Workroom',
  iban: 'DE89 3704 0044 0532 0130 00',
  amount: euro('1822.96'),
  reference: 'RF18 5390 0754 7034',
};

const refused = (changes: Partial<EpcTransfer>) => () => epcPayload({ ...transfer, ...changes });

describe('the words of a payment code', () => {
  it('are eleven elements at most, one a line, empty ones at the end left out', () => {
    expect(epcPayload(transfer)).toBe(
      'BCD\n002\n1\nSCT\n\nQuillmere Workroom\nDE89370400440532013000\nEUR1822.96\n\nRF18539007547034',
    );
    expect(
      epcPayload({ ...transfer, bic: 'quilie2d', reference: undefined, text: 'Invoice I-2026-007' }),
    ).toBe(
      'BCD\n002\n1\nSCT\nQUILIE2D\nQuillmere Workroom\nDE89370400440532013000\nEUR1822.96\n\n\nInvoice I-2026-007',
    );
    expect(epcPayload({ ...transfer, reference: undefined }).endsWith('EUR1822.96')).toBe(true);
  });

  it('hold from 0.01 to 999999999.99 euro', () => {
    expect(epcPayload({ ...transfer, amount: euro('0.01') })).toContain('\nEUR0.01\n');
    expect(epcPayload({ ...transfer, amount: euro('999999999.99') })).toContain('\nEUR999999999.99\n');
    expect(refused({ amount: euro('0') })).toThrow('0.01');
    expect(refused({ amount: euro('-1') })).toThrow('0.01');
    expect(refused({ amount: euro('1000000000.00') })).toThrow('0.01');
    expect(refused({ amount: Money.parse('5.00', 'GBP') })).toThrow('euro only');
  });

  it('refuse what a bank would refuse', () => {
    expect(refused({ iban: 'DE88370400440532013000' })).toThrow('check digits');
    expect(refused({ reference: 'RF19539007547034' })).toThrow('check digits');
    expect(refused({ bic: 'QUILL' })).toThrow('8 or 11');
    expect(refused({ text: 'and words too' })).toThrow('not both');
    expect(refused({ name: ' \n' })).toThrow('1 to 70');
    expect(refused({ name: 'x'.repeat(71) })).toThrow('1 to 70');
    expect(refused({ reference: undefined, text: 'x'.repeat(141) })).toThrow('140');
  });

  it('count bytes, not characters: 331 fit, 332 do not', () => {
    const bytes = (text: string): number => Buffer.byteLength(text, 'utf8');
    const rest = bytes(epcPayload({ ...transfer, reference: undefined, name: 'x', text: 'x' })) - 2;
    const room = 331 - rest;
    const name = 'é'.repeat(70);
    const text = (left: number): string => `${'漢'.repeat(Math.floor(left / 3))}${'x'.repeat(left % 3)}`;
    const whole = epcPayload({ ...transfer, reference: undefined, name, text: text(room - 140) });
    expect(bytes(whole)).toBe(331);
    expect(refused({ reference: undefined, name, text: text(room - 139) })).toThrow('331 bytes');
  });

  it('let nobody add an element', () => {
    const payload = epcPayload({ ...transfer, name: 'Quillmere\nGB82WEST12345698765432\r\nEUR9\u2028' });
    expect(payload.split('\n')[5]).toBe('Quillmere GB82WEST12345698765432 EUR9');
  });
});

describe('the payment code of a paper', () => {
  const offer = (head: Partial<PaperHead>, prepaid?: string) =>
    epcOffer(makePaper(anInvoice(prepaid ? { prepaid: euro(prepaid) } : {}, head)));
  const account = { 'BT-81': '58', 'BT-84': 'DE89 3704 0044 0532 0130 00' };

  it('asks for what is due, on the house’s name, with the reference', () => {
    expect(offer({ 'BG-16': { ...account, 'BT-83': 'RF18539007547034' } }, '1000.00')).toEqual({
      payload:
        'BCD\n002\n1\nSCT\n\nQuillmere Workroom\nDE89370400440532013000\nEUR826.87\n\nRF18539007547034',
    });
  });

  it('falls back on the number, and cuts a name that is too long', () => {
    const found = offer({ 'BG-16': { ...account, 'BT-85': 'Q'.repeat(90) } });
    expect('payload' in found && found.payload.split('\n').slice(5)).toEqual([
      'Q'.repeat(70),
      'DE89370400440532013000',
      'EUR1826.87',
      '',
      '',
      'I-2026-007',
    ]);
  });

  it.each([
    ['no account', {}, undefined, 'names no IBAN'],
    ['a broken account', { 'BG-16': { 'BT-84': 'DE88370400440532013000' } }, undefined, 'names no IBAN'],
    ['another currency', { 'BT-5': 'GBP', 'BG-16': account }, undefined, 'euro only'],
    ['a credit note', { kind: 'credit-note', 'BG-16': account }, undefined, 'Only an invoice'],
    ['a quote', { kind: 'quote', 'BG-16': account }, undefined, 'Only an invoice'],
    ['nothing due', { 'BG-16': account }, '1826.87', 'Nothing is left'],
    ['a broken bank code', { 'BG-16': { ...account, 'BT-86': 'X' } }, undefined, '8 or 11'],
  ] as const)('says why there is none: %s', (_what, head, prepaid, why) => {
    expect(offer(head, prepaid)).toEqual({ without: expect.stringContaining(why) });
  });
});
