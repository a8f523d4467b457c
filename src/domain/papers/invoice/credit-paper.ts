import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';
import { creditNoteFor } from '../model/credit-note.js';
import { makePaper, type PaperDraft } from '../model/make-paper.js';
import type { Paper, PaperHead } from '../model/paper.js';
import { amountIssued } from '../settlement/balance.js';
import { type EarlierPaper, leftOf } from './earlier-paper.js';
import type { InvoiceChoices } from './invoice-choices.js';

/** The group an amount is given back in: the one with the largest base, the first of those alike. */
const largestGroup = (paper: Paper): Paper['BG-23'][number] => {
  const [first, ...others] = paper['BG-23'];
  if (!first) throw new Invalid('This invoice has no tax group, so nothing can be given back in one.');
  return others.reduce((large, each) => (each['BT-116'].compare(large['BT-116']) > 0 ? each : large), first);
};

const draftFor = (choices: InvoiceChoices, paper: Paper, issued: string): PaperDraft => {
  const { credits, creditLines, creditAmount, note } = choices;
  const whole = creditNoteFor(paper, issued, note);
  if (credits === 'whole') return whole;
  if (credits === 'lines') {
    const lines = whole.lines.filter((_, place) =>
      creditLines.includes(paper['BG-25'][place]?.['BT-126'] ?? ''),
    );
    return creditNoteFor(paper, issued, note, lines);
  }
  if (!creditAmount || creditAmount.minor <= 0)
    throw Invalid.field('creditAmount', 'Say how much is given back, with tax.');
  const group = largestGroup(paper);
  const number = paper['BT-1'] ?? '';
  return {
    ...creditNoteFor(paper, issued, note, [
      {
        name: note ? note.split('\n')[0]!.slice(0, 200) : number,
        quantity: new Decimal(1),
        unit: 'piece',
        price: creditAmount.toDecimal(),
        category: group['BT-118'],
        ...(group['BT-119'] ? { rate: group['BT-119'] } : {}),
      },
    ]),
    pricesInclude: 'tax',
    grossPolicy: 'rounding',
  };
};

/**
 * The credit note a draft stands for: the whole of an invoice, some of its lines, or an amount with tax in the invoice's
 * largest tax group. What the house and the client are called now stands in its head; the rest is the invoice's.
 *
 * @param head of today: its date, parties and chosen terms
 * @param credited the invoice, with the credit notes already on it
 * @throws Invalid when nothing is left to give back, or more would be given back than is left
 * @see EN 16931-1 BT-3 code 381; VAT Directive 2006/112/EC art. 219; test/domain/papers/invoice/drafting.test.ts
 */
export const creditPaper = (choices: InvoiceChoices, head: PaperHead, credited: EarlierPaper): Paper => {
  const issued = head['BT-2'] ?? '';
  const draft = draftFor(choices, credited.paper, issued);
  const left = leftOf(credited);
  const paper = makePaper({
    ...draft,
    head: {
      ...draft.head,
      'BT-1': head['BT-1'],
      'BG-4': head['BG-4'],
      'BG-7': head['BG-7'],
      'BG-16': undefined,
    },
  });
  if (amountIssued(paper).compare(left) > 0)
    throw Invalid.field(
      'credits',
      left.minor > 0
        ? `Only ${left} ${left.currency} is left of invoice ${credited.paper['BT-1'] ?? ''}; a credit note cannot give back more.`
        : `Invoice ${credited.paper['BT-1'] ?? ''} was given back already.`,
    );
  return paper;
};
