import type { Studio } from '../../../../domain/house/studio.js';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { Money } from '../../../../domain/kernel/money.js';
import type { InvoiceChoices, InvoiceLine } from '../../../../domain/papers/invoice/invoice-choices.js';
import {
  invoiceDraftBook,
  type KeptInvoiceDraft,
} from '../../../../storage/books/papers/invoice-draft-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import type { Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { taxOf } from '../../../../web/papers/house-on-paper.js';
import { invoiceSubject } from './begin-invoice.js';
import type { InvoiceEdits } from './draft.form.js';

/** A line's tax is what it was laid ready with; one written by hand takes the house's. */
const lineOf = (line: InvoiceEdits['lines'][number], studio: Studio): InvoiceLine => {
  const house = taxOf(studio);
  const { category, rate, ...rest } = line;
  const tax = category === '' ? { category: house.category, rate: house.rate } : { category, rate };
  return { ...rest, category: tax.category, ...(tax.rate ? { rate: tax.rate } : {}) };
};

/** What was chosen, with what was changed; what a line came from stays as it was laid ready. */
export const changed = (
  { choices }: KeptInvoiceDraft,
  edits: InvoiceEdits,
  studio: Studio,
): InvoiceChoices => {
  const known = new Map(choices.lines.map(({ ref, garment }) => [ref, garment]));
  const zero = Money.zero(choices.currency);
  const lines = edits.lines.map((line) => lineOf(line, studio));
  lines.forEach(({ ref, garment }, place) => {
    if (ref !== '' && known.get(ref) !== garment)
      throw Invalid.field(
        `lines.${place}.ref`,
        'This line was not laid ready with the invoice. Leave it blank.',
      );
  });
  const isCredit = choices.kind === 'credit-note';
  if (!isCredit && edits.deducts !== choices.deducts && edits.deducts !== 'nothing') {
    if (
      choices.kind === 'deposit-invoice' ||
      (choices.kind === 'part-invoice') !== (edits.deducts === 'their-deposit')
    )
      throw Invalid.field('deducts', 'This does not come off an invoice of this kind.');
  }
  const { reason, category } = taxOf(studio);
  return {
    ...choices,
    taxReasons: { ...(reason ? { [category]: reason } : {}), ...choices.taxReasons },
    lines: isCredit
      ? []
      : lines.map(({ ref, garment, ...line }) => ({ ref, garment: ref ? garment : '', ...line })),
    discount: edits.discount ?? zero,
    discountReason: edits.discountReason,
    deducts: edits.deducts,
    prepaid: edits.prepaid ?? zero,
    due: edits.due,
    supplied: edits.supplied,
    orderNumber: edits.orderNumber,
    terms: edits.terms,
    note: edits.note,
    credits: edits.credits,
    creditLines: edits.creditLines,
    creditAmount: edits.creditAmount,
  };
};

/** @throws Stale when somebody changed it meanwhile; NotFound once it was issued */
export const keepInvoice = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  edits: InvoiceEdits,
  seen?: number,
): Promise<Done<KeptInvoiceDraft>> =>
  unit.write(visit, async (writing) => {
    const present = await invoiceDraftBook.one(writing, id);
    const studio = await studioBook.the(writing);
    const draft = await invoiceDraftBook.choose(writing, present, changed(present, edits, studio), seen);
    writing.says('Changed the draft of an invoice', invoiceSubject(draft.commissionId, id));
    return draft;
  });

/** Puts a draft away; it can be undone, since nothing was issued. @throws Stale when it has changed since `seen` */
export const removeInvoice = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  seen?: number,
): Promise<Done<KeptInvoiceDraft>> =>
  unit.write(visit, async (writing) => {
    const draft = await invoiceDraftBook.one(writing, id);
    await invoiceDraftBook.remove(writing, id, seen);
    writing.says('Put away the draft of an invoice', invoiceSubject(draft.commissionId, id));
    return draft;
  });
