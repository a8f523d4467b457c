import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sheet } from '../browser/sheet.js';
import { SafePicture } from '../templates/safe-picture.js';
import type { Templates } from '../templates/templates.js';
import type { AccountLetter } from './account-letter.js';
import type { BenchHead, Docket, FittingNotes, MakingSheet } from './bench-papers.js';
import { type Face, inlinedFaces } from './inlined-faces.js';
import type { InvoiceSheet } from './invoice-sheet.js';
import { checkedLetterhead } from './letterhead.js';
import type { MeasurementCard } from './measurement-card.js';
import type { QuoteSheet } from './quote-sheet.js';
import { glossary } from './words/glossary.js';
import { paperWords, spokenOf } from './words/paper-words.js';

/** A paper ready to print: its HTML, complete in itself, and the sheet it goes on. */
export type Paper = { readonly html: string; readonly sheet: Sheet };

const text: Face = { family: 'Source Serif 4', weight: 400, style: 'normal' };
const italic: Face = { family: 'Source Serif 4', weight: 400, style: 'italic' };
const strong: Face = { family: 'Source Serif 4', weight: 600, style: 'normal' };
const figures: Face = { family: 'Source Sans 3', weight: 400, style: 'normal' };
const strongFigures: Face = { family: 'Source Sans 3', weight: 600, style: 'normal' };

/** Words for a margin: there is one line to stand on, and the paper itself says them in full. */
const joined = (...words: string[]): string => {
  const line = [...words.filter(Boolean).join(' · ')];
  return line.length > 110 ? `${line.slice(0, 109).join('')}…` : line.join('');
};

/** "n of m" with its braces left for the counters. */
const pageWords = (language: string): string =>
  glossary().words[spokenOf(language)].get('page') ?? '{n} of {m}';

/** Turns page models of words into papers: template, style and faces in one piece. */
export class Stationery {
  private readonly styles = new Map<string, string>();

  /**
   * @param templates draws `papers/…`
   * @param folder the templates folder, where the papers' style sheets lie in `papers/css`
   */
  constructor(
    private readonly templates: Templates,
    private readonly folder: string,
  ) {}

  quote(quote: QuoteSheet, format: 'A4' | 'Letter' = 'A4'): Paper {
    checkedLetterhead(quote.letterhead);
    const { say } = paperWords(quote.language);
    const name = joined(`${quote.title} ${quote.number}`, say('quote.version', { version: quote.version }));
    return {
      html: this.dressed('quote', { ...quote, documentTitle: `${quote.title} ${quote.number}` }, [
        text,
        italic,
        strong,
      ]),
      sheet: {
        format,
        headWords: joined(quote.letterhead.studio, name),
        footerWords: joined(name, quote.notice),
        pageWords: pageWords(quote.language),
      },
    };
  }

  invoice(invoice: InvoiceSheet, format: 'A4' | 'Letter' = 'A4'): Paper {
    checkedLetterhead(invoice.letterhead);
    const name = `${invoice.title} ${invoice.number}`;
    const drawing = invoice.payment?.code;
    const code = drawing ? SafePicture.fromOwnDrawing(drawing) : null;
    return {
      html: this.dressed('invoice', { ...invoice, documentTitle: name, code }, [text, italic, strong]),
      sheet: {
        format,
        headWords: joined(invoice.letterhead.studio, name),
        footerWords: joined(name, invoice.notice),
        pageWords: pageWords(invoice.language),
      },
    };
  }

  /** A receipt, a statement of account or a reminder. */
  accountLetter(letter: AccountLetter, format: 'A4' | 'Letter' = 'A4'): Paper {
    checkedLetterhead(letter.letterhead);
    const name = joined([letter.title, letter.number].filter(Boolean).join(' '));
    return {
      html: this.dressed('account-letter', { ...letter, documentTitle: name }, [text, italic, strong]),
      sheet: {
        format,
        headWords: joined(letter.letterhead.studio, name),
        footerWords: name,
        pageWords: pageWords(letter.language),
      },
    };
  }

  card(card: MeasurementCard): Paper {
    const spare = Array.from({ length: card.spareRows }, () => '');
    return {
      html: this.dressed('card', { ...card, spare }, [text, italic, strong, figures, strongFigures]),
      sheet: { format: 'A5 landscape', footerWords: joined(card.studio, card.clientCode, card.date) },
    };
  }

  docket(docket: Docket): Paper {
    return this.ofTheBench('docket', `Docket ${docket.number}`, docket, 'A6');
  }

  makingSheet(sheet: MakingSheet): Paper {
    return this.ofTheBench('making-sheet', `Making sheet ${sheet.number}`, sheet, 'A5');
  }

  fittingNotes(notes: FittingNotes, format: 'A4' | 'Letter' = 'A4'): Paper {
    const spare = Array.from({ length: notes.spareRows }, () => '');
    return this.ofTheBench('fitting-notes', 'Fitting notes', { ...notes, spare }, format);
  }

  private ofTheBench<T extends BenchHead>(
    name: string,
    title: string,
    model: T,
    format: Sheet['format'],
  ): Paper {
    const words = joined(title, model.garment, model.commission, model.clientCode);
    const html = this.dressed(`bench/${name}`, { ...model, documentTitle: `${title}, ${model.commission}` }, [
      text,
      italic,
      strong,
      figures,
      strongFigures,
    ]);
    return { html, sheet: { format, headWords: words, footerWords: joined(model.studio, words) } };
  }

  private dressed(name: string, model: object, faces: readonly Face[]): string {
    const html = this.templates.renderBare(`papers/${name}`, model);
    const common = name.startsWith('bench/') ? [this.style('bench/paper')] : [];
    const style = [inlinedFaces(faces, html), this.style('sheet'), ...common, this.style(name)].join('\n');
    // Base64 and quotation marks would not survive a template's escaping.
    return html.replace('</head>', () => `<style>${style}</style></head>`);
  }

  private style(name: string): string {
    const known = this.styles.get(name);
    if (known !== undefined) return known;
    const read = readFileSync(join(this.folder, 'papers', 'css', `${name}.css`), 'utf8');
    this.styles.set(name, read);
    return read;
  }
}
