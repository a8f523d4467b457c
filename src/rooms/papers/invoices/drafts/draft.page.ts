import { QUANTITY_UNITS } from '../../../../domain/kernel/quantity.js';
import type { InvoiceChoices } from '../../../../domain/papers/invoice/invoice-choices.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { IssuedInvoice } from '../../../../storage/books/papers/invoice-book.js';
import { invoiceDocumentOf } from '../../../../storage/books/papers/invoice-text.js';
import { freshForm } from '../../../../web/forms/form.js';
import type { PageWords } from '../../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../../web/words/amounts.js';
import type { InvoiceOfDraft } from '../invoice-of-draft.js';
import { draftName, invoiceCrumbs, invoiceDraftUrl, invoicesUrl } from '../invoice-words.js';
import { movedInWords } from '../moved-in-words.js';
import { typedInvoice } from './draft.form.js';

const SPARE_LINES = 2;

export const invoiceForm = ({ kept, studio }: InvoiceOfDraft): FormModel =>
  freshForm('', typedInvoice(kept.choices, studio.identity.locale), kept.version);

/** Where a draft's pages stand, and the way back from them. */
export const crumbsOf = ({ commission }: InvoiceOfDraft): PageWords['crumbs'] =>
  commission ? invoiceCrumbs(commission) : [{ text: 'Papers', href: '/papers' }];

/** The page on which an invoice is made up. */
export const draftPage = (
  form: FormModel,
  told: InvoiceOfDraft,
  credited: IssuedInvoice | undefined,
): { template: string; words: PageWords } => {
  const { kept, studio, hand, client } = told;
  const { choices } = kept;
  const { currency, locale } = studio.identity;
  const url = invoiceDraftUrl(kept.commissionId ?? '', kept.id);
  const isCredit = choices.kind === 'credit-note';
  const typedLines = Object.keys(form.values).filter((name) => /^lines\.\d+\.name$/.test(name)).length;
  return {
    template: isCredit ? 'paper-room/invoices/credit' : 'paper-room/invoices/draft',
    words: {
      title: draftName(choices.kind),
      room: 'papers',
      crumbs: crumbsOf(told) ?? [],
      form: { ...form, action: url },
      asItStands: asItStands(told),
      priceKind: choices.pricesInclude === 'tax' ? 'with tax' : 'before tax',
      currency,
      lines: Array.from({ length: typedLines + SPARE_LINES }, (_, place) => lineNames(place, form)),
      // Pieces first: what stands first is what a blank line begins with.
      units: [
        { value: 'piece', text: QUANTITY_UNITS.piece.words },
        ...Object.entries(QUANTITY_UNITS)
          .filter(([value]) => value !== 'piece')
          .map(([value, { words }]) => ({ value, text: words })),
      ],
      deduction: deductionOf(choices),
      deducted: hand.deductions.map(
        ({ number, net, isCredit: back }) =>
          `${back ? 'Credit note' : 'Invoice'} ${number}: ${amountInWords(net, locale)} before tax`,
      ),
      days: `${told.settings.paymentDays} days after it is issued, when left empty.`,
      client: client.name,
      credited: credited ? creditedWords(credited, locale) : null,
      sentences: movedInWords(hand.moved, locale),
      preview: `${url}/preview`,
      leave: { text: 'Leave without keeping', href: invoicesUrl(kept.commissionId ?? '') },
      remove: { action: `${url}/remove`, text: 'Put this draft away', once: freshForm('').once },
    },
  };
};

const asItStands = ({ hand, studio, kept }: InvoiceOfDraft): string => {
  const totals = hand.paper['BG-22'];
  const { locale } = studio.identity;
  const amount = moneyInWords(totals['BT-115'], locale);
  const tax = totals['BT-110'].isZero() ? '' : `, ${moneyInWords(totals['BT-110'], locale)} of it tax`;
  return kept.choices.kind === 'credit-note'
    ? `As it stands it gives back ${amount}${tax}.`
    : `As it stands it asks for ${amount}${tax}.`;
};

const lineNames = (place: number, { values }: FormModel): object => {
  const at = (field: string): string => `lines.${place}.${field}`;
  return {
    number: String(place + 1),
    name: at('name'),
    description: at('description'),
    quantity: at('quantity'),
    unit: at('unit'),
    price: at('price'),
    hidden: ['ref', 'garment', 'category', 'rate'].map((field) => ({
      name: at(field),
      value: values[at(field)] ?? '',
    })),
  };
};

/** What may come off an invoice of this kind; nothing to choose where nothing can. */
const deductionOf = ({ kind }: InvoiceChoices): { value: string; text: string }[] => {
  if (kind === 'part-invoice')
    return [
      { value: 'their-deposit', text: 'the garments’ share of the deposit' },
      { value: 'nothing', text: 'nothing; the final invoice takes it off' },
    ];
  if (kind === 'final-invoice' || kind === 'invoice')
    return [
      { value: 'all-earlier', text: 'every earlier invoice of this commission' },
      { value: 'nothing', text: 'nothing' },
    ];
  return [];
};

const creditedWords = (credited: IssuedInvoice, locale: string): object => ({
  number: credited.number,
  href: `/papers/${credited.id}`,
  total: moneyInWords(credited.total, locale),
  lines: invoiceDocumentOf(credited).paper['BG-25'].map((line) => ({
    name: `creditLines.${line['BT-126']}`,
    label: `${line['BT-153']}, ${amountInWords(line['BT-131'], locale)} before tax`,
  })),
});

/** What a draft chose and comes to, for the JSON interface. */
export const draftInJson = ({ kept, hand, studio }: InvoiceOfDraft): object => {
  const { kind: _, currency: __, taxReasons: ___, pricesInclude, ...edits } = kept.choices;
  return {
    id: kept.id,
    version: kept.version,
    commissionId: kept.commissionId ?? null,
    clientId: kept.clientId,
    kind: kept.choices.kind,
    credits: kept.credits ?? null,
    quotes: kept.quotes,
    currency: kept.choices.currency,
    pricesInclude,
    choices: {
      ...edits,
      due: edits.due ?? '',
      supplied: edits.supplied ?? '',
      creditAmount: edits.creditAmount ?? '',
    },
    net: hand.paper['BG-22']['BT-109'],
    tax: hand.paper['BG-22']['BT-110'],
    total: hand.paper['BG-22']['BT-112'],
    payable: hand.paper['BG-22']['BT-115'],
    deductions: hand.deductions,
    sentences: movedInWords(hand.moved, studio.identity.locale),
    findings: hand.findings,
  };
};
