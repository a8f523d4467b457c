import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Conflict, Invalid, NotFound, Stale } from '../../../../domain/kernel/errors.js';
import { type Finding, mayIssue } from '../../../../domain/papers/finding.js';
import { amountIssued } from '../../../../domain/papers/settlement/balance.js';
import { PdfPrinter } from '../../../../printing/browser/pdf-printer.js';
import type { InvoiceSheet } from '../../../../printing/papers/invoice-sheet.js';
import { Stationery } from '../../../../printing/papers/stationery.js';
import { paperWords } from '../../../../printing/papers/words/paper-words.js';
import { invoiceBook } from '../../../../storage/books/papers/invoice-book.js';
import {
  invoiceDraftBook,
  type KeptInvoiceDraft,
} from '../../../../storage/books/papers/invoice-draft-book.js';
import type { InvoiceDocument } from '../../../../storage/books/papers/invoice-text.js';
import { documentText } from '../../../../storage/books/papers/quote-text.js';
import { seriesBook } from '../../../../storage/books/series-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../../storage/clock.js';
import { IssuingTurn } from '../../../../storage/issuing/issuing-turn.js';
import { foreseeNumber, lockSeries, type NextNumber } from '../../../../storage/issuing/next-number.js';
import { Overtaken, printThenKeep } from '../../../../storage/issuing/print-then-keep.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit, Writing } from '../../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { keptSheet } from '../../../../web/papers/house-on-paper.js';
import { invoiceSubject } from '../drafts/begin-invoice.js';
import { type InvoiceOfDraft, invoiceOfDraft } from '../invoice-of-draft.js';
import { movedInWords } from '../moved-in-words.js';
import { sheetOfInvoice } from '../sheet-of-invoice.js';
import { putHeldTo } from './put-held-to.js';

/** An invoice ready to be printed: its words with the number it would get. */
type Ready = {
  readonly told: InvoiceOfDraft;
  readonly sheet: InvoiceSheet;
  readonly next: NextNumber;
};

/** Prints and issues invoices and credit notes. Printing never happens inside a write. */
@Injectable()
export class IssuingInvoices {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
    private readonly turn: IssuingTurn,
  ) {}

  /** A draft as it would go out now. @throws NotFound */
  async inHand(draftId: string): Promise<InvoiceOfDraft> {
    return invoiceOfDraft(this.read, this.clock, await invoiceDraftBook.one(this.read, draftId));
  }

  /** The words of a preview. */
  previewSheet(told: InvoiceOfDraft): InvoiceSheet {
    const { say } = paperWords(told.language);
    return sheetOfInvoice(told, { number: say('number-not-yet'), notice: say('preview') });
  }

  async previewPdf(draftId: string): Promise<Uint8Array> {
    const told = await this.inHand(draftId);
    return this.print(this.previewSheet(told), told);
  }

  /**
   * Issues a draft: prints it with the number that comes next, then keeps paper, bytes and number in one act, provided that
   * nothing moved meanwhile; else prints again. A failed print takes no number and leaves the draft.
   *
   * @param confirmed codes of the findings that were looked at
   * @param seen the draft's version that was looked at
   * @throws Invalid with what must be mended; Stale when the draft changed since it was looked at
   */
  async issue(
    visit: Visit,
    draftId: string,
    confirmed: readonly string[],
    seen?: number,
  ): Promise<Done<string>> {
    const { choices } = await draftOr(this.read, draftId);
    return this.turn.run(seriesOf(choices.kind), () =>
      printThenKeep({
        ready: async () => {
          const ready = await this.ready(this.read, draftId, seen);
          mustBeReady(ready.told.hand.findings, confirmed);
          return ready;
        },
        print: ({ sheet, told }) => this.print(sheet, told),
        keep: (ready, pdf) => this.unit.write(visit, (writing) => this.keep(writing, ready, pdf)),
      }),
    );
  }

  private async ready(reading: Reading, draftId: string, seen: number | undefined): Promise<Ready> {
    const kept = await draftOr(reading, draftId);
    if (seen !== undefined && seen !== kept.version) throw new Stale({ ...kept });
    const studio = await studioBook.the(reading);
    const settings = studio.papers;
    const name = seriesOf(kept.choices.kind);
    const next = await foreseeNumber(
      reading,
      { name, pattern: name === 'credit-note' ? settings.creditSeries : settings.invoiceSeries },
      todayIn(this.clock, studio.identity.zone),
      (number) => invoiceBook.isNumberTaken(reading, number),
    );
    if (next.isTaken) throw new Conflict(GIVEN(next.number), 'number-given');
    const told = await invoiceOfDraft(reading, this.clock, kept, next.number);
    return { told, sheet: sheetOfInvoice(told, { number: next.number, notice: '' }), next };
  }

  private async keep(writing: Writing, ready: Ready, pdf: Uint8Array): Promise<string> {
    const { told, next } = ready;
    const { kept, hand, client, commission } = told;
    await lockSeries(writing, next.key);
    // Worked out again inside the act: another paper or a corrected client would make this print untrue.
    const now = await this.ready(writing, kept.id, kept.version);
    const document = documentOf(ready);
    if (documentOf(now) !== document) throw new Overtaken();
    await seriesBook.take(writing, next.key, next.pattern);
    const totals = hand.paper['BG-22'];
    const id = await invoiceBook.add(writing, {
      commissionId: kept.commissionId,
      clientId: client.id,
      clientName: client.name,
      title: commission?.title ?? '',
      kind: kept.choices.kind,
      number: next.number,
      series: next.key,
      issuedOn: told.today,
      dueOn: hand.paper['BT-9'],
      tax: totals['BT-110'],
      total: amountIssued(hand.paper),
      payable: totals['BT-115'],
      language: told.language,
      cites: hand.cites,
      document,
      sha256: createHash('sha256').update(pdf).digest('hex'),
      pdf,
      foundBy: commission?.number ?? '',
    });
    await putHeldTo(writing, id, told);
    await invoiceDraftBook.remove(writing, kept.id, kept.version);
    if (kept.commissionId) await writing.seal(`commission/${kept.commissionId}`);
    writing.says(`Issued ${next.number} to ${client.name}`, invoiceSubject(kept.commissionId, id));
    return id;
  }

  private print(sheet: InvoiceSheet, { studio }: InvoiceOfDraft): Promise<Uint8Array> {
    const paper = this.stationery.invoice(sheet, studio.sheet);
    return this.printer.print(paper.html, paper.sheet);
  }
}

const seriesOf = (kind: KeptInvoiceDraft['choices']['kind']): 'invoice' | 'credit-note' =>
  kind === 'credit-note' ? 'credit-note' : 'invoice';

const draftOr = (reading: Reading, draftId: string): Promise<KeptInvoiceDraft> =>
  invoiceDraftBook.one(reading, draftId).catch((error: unknown) => {
    throw error instanceof NotFound ? new Conflict(GONE, 'already-done') : error;
  });

/** What is kept of an invoice besides its print, as text. */
const documentOf = ({ told, sheet }: Ready): string => {
  const { kept, hand } = told;
  const document: InvoiceDocument = {
    choices: kept.choices,
    paper: hand.paper,
    deductions: hand.deductions,
    sentences: movedInWords(hand.moved, told.language),
    quotes: kept.quotes,
    sheet: keptSheet(sheet),
  };
  return documentText(document);
};

const GIVEN = (number: string): string =>
  `The series gives ${number} next, and that number went out already. Choose another pattern in House.`;
const GONE = 'This draft is no longer here: it was issued or put away. Look at the papers of the commission.';

/** @throws Invalid naming each finding that blocks, or that nobody has looked at yet */
const mustBeReady = (findings: readonly Finding[], confirmed: readonly string[]): void => {
  if (mayIssue(findings, confirmed)) return;
  const open = findings.filter(({ blocks, code }) => blocks || !confirmed.includes(code));
  throw new Invalid(
    'The invoice was not issued: something is missing or wants a look.',
    open.map(({ code, text }) => ({ field: `confirm.${code}`, text })),
    'not-ready',
  );
};
