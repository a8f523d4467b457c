import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Conflict, NotFound, Stale } from '../../../../domain/kernel/errors.js';
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
import { seriesBook } from '../../../../storage/books/series-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../../storage/clock.js';
import { IssuingTurn } from '../../../../storage/issuing/issuing-turn.js';
import { foreseeNumber, lockSeries } from '../../../../storage/issuing/next-number.js';
import { Overtaken, printThenKeep } from '../../../../storage/issuing/print-then-keep.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit, Writing } from '../../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { invoiceSubject } from '../drafts/begin-invoice.js';
import { type InvoiceOfDraft, invoiceOfDraft } from '../invoice-of-draft.js';
import { sheetOfInvoice } from '../sheet-of-invoice.js';
import { BUSY, type LookedAt, MOST_TRIES, mustBeReady, seriesOf } from './looked-at.js';
import { putHeldTo } from './put-held-to.js';
import { documentOf, type Ready } from './ready-invoice.js';

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
          const moment = await this.read.moment();
          const ready = await this.ready(this.read, draftId, seen);
          mustBeReady(ready.told.hand.findings, confirmed);
          return { ...ready, moment };
        },
        print: ({ sheet, told }) => this.print(sheet, told),
        keep: (ready, pdf) => this.unit.write(visit, (writing) => this.keep(writing, ready, pdf)),
      }),
    );
  }

  /** @param ahead how many numbers further on, where others go out before it */
  private async ready(
    reading: Reading,
    draftId: string,
    seen: number | undefined,
    ahead = 0,
  ): Promise<Ready> {
    const kept = await draftOr(reading, draftId);
    if (seen !== undefined && seen !== kept.version) throw new Stale({ ...kept });
    const studio = await studioBook.the(reading);
    const settings = studio.papers;
    const name = seriesOf(kept.choices.kind);
    const next = await foreseeNumber(
      reading,
      { name, pattern: name === 'credit-note' ? settings.creditSeries : settings.invoiceSeries, ahead },
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
    const document = documentOf(ready);
    // Worked out again inside the act: another paper or a corrected client would make this print untrue.
    if (
      !(await this.isUnmoved(ready)) &&
      documentOf(await this.ready(writing, kept.id, kept.version)) !== document
    )
      throw new Overtaken();
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

  /** Was nothing at all written since it was read, and is it the same day? Then working it out again would tell nothing new. */
  private async isUnmoved({ moment, told: { today, studio } }: Ready): Promise<boolean> {
    if (moment === undefined || moment !== (await this.read.moment())) return false;
    return todayIn(this.clock, studio.identity.zone) === today;
  }

  /**
   * Issues several drafts in their order, as many as can be foreseen in one turn: they are printed beside each other, each with the
   * number it would get, and kept one after the other. What was overtaken is printed again with those that follow it.
   *
   * @param drafts of one series
   * @param issued told of each as it is kept
   * @throws whatever stood in the way of one; those before it are issued, it and those behind it are drafts
   */
  async issueTogether(
    visit: Visit,
    drafts: readonly LookedAt[],
    confirmed: readonly string[],
    issued: (draft: LookedAt, paper: { readonly id: string; readonly number: string }) => void,
  ): Promise<void> {
    const [first] = drafts;
    if (!first) return;
    await this.turn.run(seriesOf(first.kind), async () => {
      let left = drafts;
      for (let tries = 0; left.length > 0; ) {
        const kept = await this.keepInOrder(visit, left, confirmed, issued);
        left = left.slice(kept);
        tries = kept > 0 ? 0 : tries + 1;
        if (tries >= MOST_TRIES) throw new Conflict(BUSY, 'busy');
      }
    });
  }

  /** @returns how many were kept before one was overtaken */
  private async keepInOrder(
    visit: Visit,
    drafts: readonly LookedAt[],
    confirmed: readonly string[],
    issued: Parameters<IssuingInvoices['issueTogether']>[3],
  ): Promise<number> {
    const printing = drafts.map(async ({ id, version }, ahead) => {
      const ready = await this.ready(this.read, id, version, ahead);
      mustBeReady(ready.told.hand.findings, confirmed);
      return { ready, pdf: await this.print(ready.sheet, ready.told) };
    });
    // A print that fails while another is waited for is looked at when it is its turn.
    for (const one of printing) one.catch(() => undefined);
    try {
      for (const [place, draft] of drafts.entries()) {
        const { ready, pdf } = await printing[place]!;
        try {
          const { value: id } = await this.unit.write(visit, (writing) => this.keep(writing, ready, pdf));
          issued(draft, { id, number: ready.next.number });
        } catch (error) {
          if (error instanceof Overtaken) return place;
          throw error;
        }
      }
      return drafts.length;
    } finally {
      await Promise.allSettled(printing);
    }
  }

  private print(sheet: InvoiceSheet, { studio }: InvoiceOfDraft): Promise<Uint8Array> {
    const paper = this.stationery.invoice(sheet, studio.sheet);
    return this.printer.print(paper.html, paper.sheet);
  }
}

const draftOr = (reading: Reading, draftId: string): Promise<KeptInvoiceDraft> =>
  invoiceDraftBook.one(reading, draftId).catch((error: unknown) => {
    throw error instanceof NotFound ? new Conflict(GONE, 'already-done') : error;
  });

const GIVEN = (number: string): string =>
  `The series gives ${number} next, and that number went out already. Choose another pattern in House.`;
const GONE = 'This draft is no longer here: it was issued or put away. Look at the papers of the commission.';
