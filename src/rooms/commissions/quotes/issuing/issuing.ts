import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Conflict, Invalid, NotFound, Stale } from '../../../../domain/kernel/errors.js';
import { type Finding, mayIssue } from '../../../../domain/papers/finding.js';
import { PdfPrinter } from '../../../../printing/browser/pdf-printer.js';
import type { QuoteSheet } from '../../../../printing/papers/quote-sheet.js';
import { Stationery } from '../../../../printing/papers/stationery.js';
import { quoteBook } from '../../../../storage/books/papers/quote-book.js';
import { type KeptDraft, quoteDraftBook } from '../../../../storage/books/papers/quote-draft-book.js';
import { documentText } from '../../../../storage/books/papers/quote-text.js';
import { seriesBook } from '../../../../storage/books/series-book.js';
import { Clock } from '../../../../storage/clock.js';
import { IssuingTurn } from '../../../../storage/issuing/issuing-turn.js';
import { foreseeNumber, lockSeries } from '../../../../storage/issuing/next-number.js';
import { Overtaken, printThenKeep } from '../../../../storage/issuing/print-then-keep.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit, Writing } from '../../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { keptSheet } from '../../../../web/papers/house-on-paper.js';
import { quoteSubject } from '../drafts/keep-draft.js';
import type { FrozenDocument } from '../kept-prices.js';
import { type QuoteInHand, quoteInHand } from '../quote-in-hand.js';
import { sheetOfQuote } from '../sheet-of-quote.js';

/** A quote ready to be printed: its words with the number it would get. */
type Ready = {
  readonly kept: KeptDraft;
  readonly hand: QuoteInHand;
  readonly sheet: QuoteSheet;
  readonly series: string | undefined;
  readonly pattern: string;
  readonly number: string;
};

/** Prints and issues quotes. Printing never happens inside a write, and a number is taken only with its paper in hand. */
@Injectable()
export class Issuing {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
    private readonly turn: IssuingTurn,
  ) {}

  /** A draft as it would go out now. @throws NotFound */
  async inHand(commissionId: string, draftId: string): Promise<{ kept: KeptDraft; hand: QuoteInHand }> {
    const kept = await quoteDraftBook.one(this.read, commissionId, draftId);
    return { kept, hand: await quoteInHand(this.read, this.clock, kept) };
  }

  /** The words of a preview. */
  previewSheet(hand: QuoteInHand): QuoteSheet {
    return sheetOfQuote(hand, { number: hand.draft.number, isPreview: true });
  }

  async previewPdf(commissionId: string, draftId: string): Promise<Uint8Array> {
    const { hand } = await this.inHand(commissionId, draftId);
    return this.print(this.previewSheet(hand), hand);
  }

  /**
   * Issues a draft: prints it with the number that comes next, then keeps paper, bytes and number in one act, provided that
   * nothing moved meanwhile; else prints again. A failed print takes no number and leaves the draft.
   *
   * @param confirmed codes of the findings that were looked at
   * @param seen the draft's version that was looked at
   * @throws Invalid with what must be mended; Stale when the draft changed since it was looked at
   */
  issue(
    visit: Visit,
    commissionId: string,
    draftId: string,
    confirmed: readonly string[],
    seen?: number,
  ): Promise<Done<string>> {
    return this.turn.run('quote', () =>
      printThenKeep({
        ready: async () => {
          const ready = await this.ready(this.read, commissionId, draftId, seen);
          mustBeReady(ready.hand.findings, confirmed);
          return ready;
        },
        print: ({ sheet, hand }) => this.print(sheet, hand),
        keep: (ready, pdf) => this.unit.write(visit, (writing) => this.keep(writing, ready, pdf)),
      }),
    );
  }

  private async ready(
    reading: Reading,
    commissionId: string,
    draftId: string,
    seen: number | undefined,
  ): Promise<Ready> {
    const kept = await quoteDraftBook.one(reading, commissionId, draftId).catch((error: unknown) => {
      throw error instanceof NotFound ? new Conflict(GONE, 'already-done') : error;
    });
    if (seen !== undefined && seen !== kept.version) throw new Stale({ ...kept });
    const hand = await quoteInHand(reading, this.clock, kept);
    const pattern = hand.studio.quotes.series;
    const next = kept.number
      ? undefined
      : await foreseeNumber(
          reading,
          { name: 'quote', pattern },
          hand.draft.issued!,
          async (asked) => (await quoteBook.lastEdition(reading, asked)) > 0,
        );
    const number = kept.number ?? next!.number;
    if (next?.isTaken) throw new Conflict(GIVEN(number), 'number-given');
    return {
      kept,
      hand,
      sheet: sheetOfQuote(hand, { number, isPreview: false }),
      series: next?.key,
      pattern,
      number,
    };
  }

  private async keep(writing: Writing, ready: Ready, pdf: Uint8Array): Promise<string> {
    const { kept, hand, number } = ready;
    await lockSeries(writing, ready.series ?? `quote ${number}`);
    // Counted again inside the act: another paper, a new rate or a corrected client would make this print untrue.
    const now = await this.ready(writing, kept.commissionId, kept.id, kept.version);
    const [document, costs] = keptTexts(ready);
    const [documentNow, costsNow] = keptTexts(now);
    if (documentNow !== document || costsNow !== costs) throw new Overtaken();
    if (ready.series) await seriesBook.take(writing, ready.series, ready.pattern);
    const { draft, paper, commission, payer } = hand;
    const id = await quoteBook.issue(writing, {
      commissionId: commission.id,
      clientId: payer.id,
      number,
      edition: draft.version,
      clientName: payer.name,
      title: commission.title,
      issuedOn: draft.issued!,
      validUntil: draft.validUntil,
      total: paper.paper['BG-22']['BT-115'],
      document,
      costs,
      sha256: createHash('sha256').update(pdf).digest('hex'),
      pdf,
      foundBy: commission.number,
    });
    await quoteDraftBook.remove(writing, kept.id, kept.version);
    await writing.seal(`commission/${commission.id}`);
    const version = draft.version === 1 ? '' : `, version ${draft.version}`;
    writing.says(`Issued ${number}${version} to ${payer.name}`, quoteSubject(commission.id, id));
    return id;
  }

  private print(sheet: QuoteSheet, { studio }: QuoteInHand): Promise<Uint8Array> {
    const paper = this.stationery.quote(sheet, studio.sheet);
    return this.printer.print(paper.html, paper.sheet);
  }
}

/** What is kept of a quote besides its print, as text: the document and the costs. */
const keptTexts = ({ hand, sheet, number }: Ready): [document: string, costs: string] => {
  const { draft, paper, words, minutes, choices, costs } = hand;
  const document: FrozenDocument = {
    draft: { ...draft, number },
    paper: { ...paper.paper, 'BT-1': number },
    sheet: keptSheet(sheet),
    words,
    minutes,
    choices,
  };
  return [documentText(document), documentText(costs)];
};

const GIVEN = (number: string): string =>
  `The series of quotes gives ${number} next, and that number went out already. Choose another pattern in House.`;
const GONE = 'This draft is no longer here: it was issued or put away. Look at the quotes of the commission.';

/** @throws Invalid naming each finding that blocks, or that nobody has looked at yet */
const mustBeReady = (findings: readonly Finding[], confirmed: readonly string[]): void => {
  if (mayIssue(findings, confirmed)) return;
  const open = findings.filter(({ blocks, code }) => blocks || !confirmed.includes(code));
  throw new Invalid(
    'The quote was not issued: something is missing or wants a look.',
    open.map(({ code, text }) => ({ field: `confirm.${code}`, text })),
    'not-ready',
  );
};
