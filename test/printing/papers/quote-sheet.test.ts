import { afterAll, describe, expect, it } from 'vitest';
import { PdfPrinter } from '../../../src/printing/browser/pdf-printer.js';
import type { Letterhead } from '../../../src/printing/papers/letterhead.js';
import type { QuoteSheet } from '../../../src/printing/papers/quote-sheet.js';
import { jacket, letterhead, quote, stationery } from './quillmere.js';
import { readPdf } from './read-pdf.js';

const printer = new PdfPrinter();
const paper = stationery();

afterAll(() => printer.close());

const printed = async (sheet: QuoteSheet, format: 'A4' | 'Letter' = 'A4') => {
  const { html, sheet: on } = paper.quote(sheet, format);
  const pdf = await readPdf(await printer.print(html, on));
  return { ...pdf, text: pdf.pages.join('\n').replace(/\s+/g, ' ') };
};

/** Every word a person could have typed, put through one change. */
const everyWord = (value: unknown, change: (word: string) => string): unknown => {
  if (typeof value === 'string') return change(value);
  if (Array.isArray(value)) return value.map((each) => everyWord(each, change));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, everyWord(each, change)]));
};

describe('a quote on paper', () => {
  it('carries everything the client must read', async () => {
    const { text, pages } = await printed(quote());
    for (const words of [
      'QUILLMERE WORKROOM',
      'VAT registration GB 999 9999 73',
      'Corvin Haddlestone',
      'Q-2026-031',
      'version 2',
      '14 July 2026',
      '13 August 2026',
      'Fixed price.',
      'Jacket',
      'Bellows pockets, two, with hand-worked tacks',
      'Fittings away from the workroom',
      'Second pair of breeches in the same cloth, ordered together',
      'VAT 20 % on 3,450.00',
      'Total to pay, in GBP',
      '4,140.00',
      '1,656.00',
      'Friday 9 October 2026',
      'list of June 2026. It is held until 31 July',
      'cutting begins when it has arrived',
      'SIGNATURE OF THE CLIENT',
    ]) {
      expect(text, words).toContain(words);
    }
    expect(pages).toHaveLength(2);
    expect(text).toMatch(/1 of 2.*2 of 2/);
  });

  it('is tagged, outlined, in its language, with every font inside', async () => {
    const pdf = await printed(quote({ language: 'en-IE' }));
    expect(pdf.isTagged).toBe(true);
    expect(pdf.language).toBe('en-IE');
    expect(pdf.title).toBe('Quotation Q-2026-031');
    expect(pdf.tags).toEqual(expect.arrayContaining(['H1', 'H2', 'Table', 'TH', 'TD', 'L', 'LI']));
    expect(pdf.outline).toEqual(['Quotation']);
    expect(pdf.fonts.length).toBeGreaterThan(2);
    expect(pdf.fonts.every((font) => /^[A-Z]{6}\+SourceSerif4/.test(font ?? ''))).toBe(true);
    expect(pdf.embedded).toBeGreaterThanOrEqual(3);
  });

  it('says for whom a garment is when the wearer is not the client', async () => {
    const cape = jacket({ name: 'Travelling cape', wearer: 'the ferryman', number: 'C-2026-019/2' });
    expect((await printed(quote({ garments: [cape] }))).text).toContain('Travelling cape for the ferryman');
  });

  it('shows no hours unless they are switched on', async () => {
    expect((await printed(quote())).text).not.toMatch(/hours/i);
    const hours = {
      words: 'Hours are an estimate.',
      lines: [{ label: 'Making', amount: '41 h' }],
      total: { label: 'Together', amount: '47 h 30' },
    };
    expect((await printed(quote({ hours }))).text).toMatch(
      /Making 41 h Together 47 h 30 Hours are an estimate/,
    );
  });

  it('leaves out what there is none of, without an empty heading', async () => {
    const bare = quote({
      options: [],
      deposit: null,
      dates: [],
      cloth: '',
      terms: [],
      fittings: [],
      excluded: [],
    });
    const { text, pages } = await printed(bare);
    expect(text).not.toMatch(/DEPOSIT|AT YOUR CHOICE|DATES|THE PRICE OF CLOTH|TERMS|FITTINGS|NOT INCLUDED/);
    expect(pages.length).toBeLessThanOrEqual(2);
  });

  it('says that a preview is a preview, at the head and at the foot of every page', async () => {
    const { pages } = await printed(quote({ notice: 'Preview, not issued' }));
    expect(pages[0]).toContain('PREVIEW, NOT ISSUED');
    for (const page of pages) expect(page).toContain('Preview, not issued');
  });

  it('runs over four pages with its table head and its number repeated', async () => {
    const scope = Array.from({ length: 24 }, (_, line) => `Spec line ${line + 1}, worked by hand`);
    const garments = Array.from({ length: 5 }, (_, each) =>
      jacket({ number: `C-2026-020/${each + 1}`, scope }),
    );
    const { pages } = await printed(quote({ garments }));
    expect(pages).toHaveLength(4);
    pages.forEach((page, index) => {
      expect(page).toContain(`${index + 1} of 4`);
      expect(page).toContain('Q-2026-031');
    });
    for (const page of pages.slice(0, 3)) expect(page).toMatch(/THE WORK\s*POUNDS STERLING/);
    expect(pages[1]).toContain('Quillmere Workroom · Quotation Q-2026-031 · version 2');
    expect(pages[3]).toContain('SIGNATURE OF THE CLIENT');
  });

  it('prints on Letter', async () => {
    expect((await printed(quote(), 'Letter')).size).toEqual([612, 792]);
  });

  it.each(['madder', 'indigo', 'bottle', 'walnut', 'slate'] as const)(
    'takes %s as its second ink',
    (accent) => {
      expect(paper.quote(quote({ letterhead: letterhead({ accent }) })).html).toContain(
        `data-accent="${accent}"`,
      );
    },
  );
});

describe('words that are no words', () => {
  const hostile = '<b>x</b><script>1</script>{{number}}{{{html}}}file:///etc/passwd http://a.example/';

  it('appear as text in every field, and nothing is fetched', async () => {
    const own = quote({
      letterhead: letterhead({ smallPrint: ['s'] }),
      opening: 'o',
      client: { name: 'n', address: ['a'], reference: 'r' },
      garments: [jacket({ wearer: 'w', parts: [{ label: 'l', amount: 'm' }] })],
      price: {
        ...quote().price,
        taxes: [{ name: 'n', on: 'o', amount: 'a', note: 'n' }],
        notes: ['n'],
      },
      hours: { words: 'w', lines: [{ label: 'l', amount: 'm' }], total: { label: 't', amount: 'm' } },
      notice: 'n',
    });
    const { language, labels, letterhead: head, ...words } = own;
    let count = 0;
    const mark = (): string => {
      count += 1;
      return `${hostile}#${count}.`;
    };
    const changed = everyWord(words, mark) as Omit<QuoteSheet, 'language' | 'labels' | 'letterhead'>;
    const marked = everyWord({ ...head, logo: '', logoWords: '', accent: '', monogram: '' }, (word) =>
      word ? mark() : '',
    ) as Letterhead;
    const sheet = { ...changed, language, labels, letterhead: { ...marked, accent: head.accent } };
    const text = (await printed(sheet)).text.replace(/\s/g, '');
    const missing = Array.from({ length: count }, (_, each) => each + 1).filter(
      (each) => !text.toLowerCase().includes(`${hostile}#${each}.`.replace(/\s/g, '').toLowerCase()),
    );
    expect(count).toBeGreaterThan(70);
    expect(missing).toEqual([]);
  });

  it('never become a logo that is fetched', () => {
    for (const logo of [
      'http://a.example/logo.png',
      'file:///logo.png',
      'data:text/html;base64,PGI+',
      '"onerror=1',
    ]) {
      expect(() => paper.quote(quote({ letterhead: letterhead({ logo }) })), logo).toThrow(/fetches nothing/);
    }
  });

  it('places a logo that is carried along', async () => {
    const dot =
      'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==';
    const { html } = paper.quote(quote({ letterhead: letterhead({ logo: dot }) }));
    expect(html).toContain('<img class="mark"');
    expect(html).not.toContain('class="monogram"');
  });

  it.each([
    ['right to left', 'عبد الرحمن الخيّاط', 'SourceSerif4'],
    ['Hebrew', 'חייט בן־ארי', 'SourceSerif4'],
    ['Greek', 'Ευφροσύνη Ράπτη', 'SourceSerif4'],
    ['Cyrillic', 'Прасковья Швецова', 'SourceSerif4'],
    ['Vietnamese', 'Nguyễn Thị Thợ May', 'SourceSerif4'],
    ['Polish and Turkish', 'Żółć Łukasz İğdır', 'SourceSerif4'],
    ['Han', '裁縫 仕立屋', 'SourceSerif4'],
    ['a picture sign and joined marks', '🧵 Zoë é', 'SourceSerif4'],
  ])('print in %s without breaking the page', async (_, name, face) => {
    const client = { ...quote().client, name };
    const pdf = await printed(quote({ client, garments: [jacket({ wearer: name })] }));
    expect(pdf.text).toContain('Q-2026-031');
    expect(pdf.text).toContain('4,140.00');
    expect(pdf.fonts.join()).toContain(face);
    expect(pdf.pages.length).toBeLessThanOrEqual(2);
  });

  it('stay on the paper when they are 400 letters without a gap', async () => {
    const long = 'W'.repeat(400);
    const { text } = await printed(quote({ client: { ...quote().client, name: long }, subject: long }));
    expect(text.match(/W/g)?.length).toBeGreaterThanOrEqual(800);
  });
});
