import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { agreedWork } from '../../../../src/domain/papers/invoice/agreed-work.js';
import {
  type BillableExtra,
  layCreditReady,
  layDepositReady,
  layFinalReady,
  layPartReady,
  layStageReady,
} from '../../../../src/domain/papers/invoice/draft-invoice.js';
import { type EarlierPaper, isUndone, leftOf } from '../../../../src/domain/papers/invoice/earlier-paper.js';
import type { InvoiceChoices } from '../../../../src/domain/papers/invoice/invoice-choices.js';
import { invoiceInHand } from '../../../../src/domain/papers/invoice/invoice-paper.js';
import type { DepositTaking } from '../../../../src/domain/papers/settlement/deductions.js';
import { aQuote, euro, haddlestone, quillmere } from '../quillmere.js';

const HEAD = {
  'BT-2': '2026-05-04',
  'BT-9': '2026-05-18',
  'BT-72': '2026-05-04',
  'BG-4': quillmere(),
  'BG-7': haddlestone(),
};
const work = agreedWork([{ draft: aQuote(), taken: undefined }])!;
const extra = (changes: Partial<BillableExtra> = {}): BillableExtra => ({
  number: 1,
  words: 'Third bellows pocket',
  price: euro('38.00'),
  compliments: false,
  garment: 'j',
  ...changes,
});
const inHand = (choices: InvoiceChoices, earlier: readonly EarlierPaper[] = [], taking?: DepositTaking) =>
  invoiceInHand(choices, { head: HEAD, earlier, ...(taking ? { taking } : {}) });
const issued = (
  choices: InvoiceChoices,
  number: string,
  earlier: readonly EarlierPaper[] = [],
): EarlierPaper => {
  const { paper, deductions } = inHand(choices, earlier);
  return { id: number, paper: { ...paper, 'BT-1': number }, lines: choices.lines, deductions, credits: [] };
};
const credit = (credited: EarlierPaper, said: Partial<InvoiceChoices>) =>
  invoiceInHand(
    { ...layCreditReady('EUR'), note: 'Written in error', ...said },
    { head: HEAD, earlier: [credited], credited },
  );
const codes = (hand: { findings: readonly { code: string; blocks: boolean }[] }): string[] =>
  hand.findings.filter(({ blocks }) => blocks).map(({ code }) => code);

describe('what was agreed', () => {
  it('is what was taken of a quote; a later quote counts for the garment it holds again', () => {
    const later = aQuote({
      number: 'Q-2026-040',
      garments: [{ ...aQuote().garments[1]!, price: euro('450.00') }],
    });
    const both = agreedWork([
      { draft: aQuote(), taken: ['j', 'w'] },
      { draft: later, taken: undefined },
    ])!;
    expect(both.pieces.map(({ ref, price }) => `${ref} ${price}`)).toEqual(['j 1450.00', 'w 450.00']);
    expect(both.quotes).toEqual(['Q-2026-031', 'Q-2026-040']);
    expect(agreedWork([])).toBeUndefined();
  });

  it('cannot be added up of prices kept in two ways', () => {
    const other = aQuote({ number: 'Q-2026-041', pricesInclude: 'tax' });
    expect(() =>
      agreedWork([
        { draft: aQuote(), taken: undefined },
        { draft: other, taken: undefined },
      ]),
    ).toThrow(/different ways/);
  });
});

describe('a part invoice', () => {
  const deposit = issued(layDepositReady(work), 'D-1');

  it('asks for the garment as agreed and its extras, a courtesy at nil price, less its share of the deposit', () => {
    const choices = layPartReady(
      work,
      ['j'],
      [extra(), extra({ number: 2, words: 'Buttons', compliments: true })],
    );
    const { paper, deductions, cites } = inHand(choices, [deposit]);
    expect(paper['BT-3']).toBe('326');
    expect(paper['BG-25'].map((line) => `${line['BT-153']}: ${line['BT-131']}`)).toEqual([
      'Jacket in hand-woven country tweed (Corvin Haddlestone): 1450.00',
      'Third bellows pocket: 38.00',
      'Buttons (with our compliments): 0.00',
      `Less invoice D-1 of 2026-05-04: ${deposit.paper['BG-25'][0]!['BT-131'].negated()}`,
    ]);
    expect(deductions).toHaveLength(1);
    expect(cites).toEqual(['D-1']);
  });

  it.each<[DepositTaking, string | undefined]>([
    ['shared', deposit.paper['BG-25'][1]!['BT-131'].toString()],
    ['first', '420.00'],
    ['last', undefined],
  ])('takes the deposit %s', (taking, net) => {
    const { deductions } = inHand(layPartReady(work, ['w'], []), [deposit], taking);
    expect(deductions[0]?.net.toString()).toBe(net);
  });

  it('takes work out by a negative quantity, since a price is never negative', () => {
    const { paper } = inHand(layPartReady(work, ['j'], [extra({ price: euro('-50.00') })]));
    expect(paper['BG-25'][1]).toMatchObject({ 'BT-153': 'Third bellows pocket' });
    expect(`${paper['BG-25'][1]!['BT-129']} ${paper['BG-25'][1]!['BT-146']}`).toBe('-1 50');
    expect(paper['BG-22']['BT-109'].toString()).toBe('1400.00');
  });

  it('takes its part of a discount on the whole, and the parts add up', () => {
    const less = agreedWork([
      { draft: aQuote({ discount: { amount: euro('100.00'), reason: 'Courtesy' } }), taken: undefined },
    ])!;
    const parts = ['j', 'w', 'b'].map((ref) => layPartReady(less, [ref], []).discount);
    expect(parts.map(String)).toEqual(['60.78', '17.61', '21.61']);
  });

  it('refuses no garment, and one that was not agreed; says when one was invoiced before', () => {
    expect(() => layPartReady(work, [], [])).toThrow(/at least one garment/);
    expect(() => layPartReady(work, ['cape'], [])).toThrow(/in no quote/);
    const before = issued(layPartReady(work, ['w'], []), 'P-1', [deposit]);
    expect(codes(inHand(layPartReady(work, ['w'], []), [deposit, before]))).toEqual(['invoiced-before']);
  });
});

describe('a stage', () => {
  it('is a share of the whole, by rate; nothing and more than all are refused', () => {
    const { paper } = inHand(layStageReady(work, new Decimal('0.3')));
    expect(paper['BG-22']['BT-109'].toString()).toBe('715.67');
    expect(paper['BG-25'][0]!['BT-153']).toBe('30 per cent of the agreed work');
    for (const share of ['0', '-0.1', '1.01'])
      expect(() => layStageReady(work, new Decimal(share))).toThrow(/above 0 and up to 100/);
  });
});

describe('the final invoice', () => {
  it('takes a deposit that was given back off no more, and gives back what a credit gave', () => {
    const deposit = issued(layDepositReady(work), 'D-1');
    const back = credit(deposit, { credits: 'whole' });
    const undone = { ...deposit, credits: [{ ...back.paper, 'BT-1': 'CN-1' }] };
    expect(isUndone(undone)).toBe(true);
    const { paper, cites } = inHand(layFinalReady(work, [], true), [undone]);
    expect(cites).toEqual([]);
    expect(paper['BG-22']['BT-109'].toString()).toBe('2385.55');
    const some = credit(deposit, { credits: 'amount', creditAmount: euro('123.00') });
    const partly = { ...deposit, credits: [{ ...some.paper, 'BT-1': 'CN-2' }] };
    const rest = inHand(layFinalReady(work, [], true), [partly]);
    expect(rest.paper['BG-25'].at(-1)!['BT-153']).toContain('Credit note CN-2');
    expect(rest.paper['BG-25'].at(-1)!['BT-131'].toString()).toBe('100.00');
  });

  it('asks whether what a credit gave back is asked for again, unless the invoice was given back whole', () => {
    const again = (earlier: EarlierPaper, choices = layFinalReady(work, [], true)) =>
      inHand(choices, [earlier]).findings.filter(({ code }) => code === 'credited-asked-again');
    const deposit = issued(layDepositReady(work), 'D-1');
    const some = credit(deposit, { credits: 'amount', creditAmount: euro('123.00') });
    const partly = { ...deposit, credits: [{ ...some.paper, 'BT-1': 'CN-2' }] };
    expect(again(partly)).toEqual([
      expect.objectContaining({
        blocks: false,
        field: 'discount',
        text: expect.stringContaining('Credit note CN-2 gave back EUR 123.00 of D-1.'),
      }),
    ]);
    expect(again(deposit)).toEqual([]);
    expect(again(partly, layFinalReady(work, [], false))).toEqual([]);
    const whole = credit(deposit, { credits: 'whole' });
    expect(again({ ...deposit, credits: [{ ...whole.paper, 'BT-1': 'CN-1' }] })).toEqual([]);
  });

  it('states a deposit on account as paid before, and leaves the tax whole', () => {
    const { paper } = inHand(layFinalReady(work, [], false, euro('1467.12')));
    const { 'BT-110': tax, 'BT-113': paid, 'BT-115': due } = paper['BG-22'];
    expect(`${tax} ${paid} ${due}`).toBe('548.68 1467.12 1467.11');
  });

  it('is refused where it forgets the earlier ones, and with a discount larger than the price', () => {
    const deposit = issued(layDepositReady(work), 'D-1');
    expect(codes(inHand(layFinalReady(work, [], false), [deposit]))).toContain('earlier-not-deducted');
    const large = {
      ...layFinalReady(work, [], false),
      discount: euro('9999.00'),
      discountReason: 'Too much',
    };
    const hand = inHand(large);
    expect(hand.findings[0]).toMatchObject({ field: 'discount', blocks: true });
    expect(hand.findings[0]?.text).toContain('larger than the price');
  });
});

describe('a credit note', () => {
  const invoice = issued(layFinalReady(work, [], false), 'I-1');

  it('gives back the whole with positive amounts, citing the invoice', () => {
    const { paper, cites } = credit(invoice, { credits: 'whole' });
    expect(paper['BT-3']).toBe('381');
    expect(paper['BG-22']['BT-112'].toString()).toBe(invoice.paper['BG-22']['BT-112'].toString());
    expect(paper['BG-3']).toEqual([{ 'BT-25': 'I-1', 'BT-26': '2026-05-04' }]);
    expect(cites).toEqual(['I-1']);
  });

  it('gives back some lines, or an amount with tax, and never more than is left', () => {
    const lines = credit(invoice, { credits: 'lines', creditLines: ['2'] });
    expect(lines.paper['BG-22']['BT-109'].toString()).toBe('420.00');
    const amount = credit(invoice, { credits: 'amount', creditAmount: euro('100.00') });
    expect(amount.paper['BG-22']['BT-115'].toString()).toBe('100.00');
    const partly = { ...invoice, credits: [{ ...lines.paper, 'BT-1': 'CN-1' }] };
    expect(leftOf(partly).toString()).toBe('2417.63');
    const over = credit(partly, { credits: 'whole' });
    expect(over.findings[0]).toMatchObject({ field: 'credits', blocks: true });
    expect(over.findings[0]?.text).toContain('Only 2417.63 EUR is left');
    expect(credit(invoice, { credits: 'amount' }).findings[0]?.text).toContain('how much is given back');
  });
});
