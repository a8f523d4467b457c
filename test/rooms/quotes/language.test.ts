import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { markBook } from '../../../src/storage/books/house/mark-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, beginQuote, bytesOf, furnishHouse, issueQuote, setRates } from './a-commission.js';

const THIMBLE =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><path d="M10 28 L14 4 H26 L30 28 Z" fill="none" stroke="#7c2330" stroke-width="2"/><image href="http://a.example/x.png" width="9" height="9"/></svg>';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '30.00');
  await studio.unit.write(studio.visit, async (writing) => {
    const house = await studioBook.the(writing);
    const papers = {
      ...house.papers,
      strapline: 'Cut and made by hand',
      headLines: 'Guild of the river towns 417',
      smallPrint: 'Above the bookbinder’s since the flood. <b>Mind the stairs.</b>',
    };
    await studioBook.correct(writing, { ...house, papers });
    // As if somebody had got past the reading: the printing browser fetches nothing all the same.
    const bytes = Buffer.from(THIMBLE).toString('base64');
    await markBook.put(writing, { kind: 'svg', alternative: 'A thimble', bytes });
    writing.says('Dressed the letterhead', 'house');
  });
}, 60_000);
afterAll(() => studio.close());

const speak = (clientId: string, paperLanguage: '' | 'fr' | 'de') =>
  studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, clientId);
    await clientBook.correct(writing, clientId, { ...client, paperLanguage });
    writing.says('Chose a language', `client/${clientId}`);
  });

/** One text, whatever blanks the language puts in; the face has one drawing for two apostrophes. */
const flat = (pages: readonly string[]): string => pages.join(' ').replace(/\s+/g, ' ').replaceAll('ʼ', '’');
/** Set to a folder, the prints are put there to be looked at. */
const LOOK = process.env.LOOK_AT_PAPERS;

describe('a quote in the language of its client', () => {
  it.each([
    [
      'fr',
      'fr',
      [
        'DEVIS',
        'À L’ATTENTION DE',
        'Prix ferme',
        'Trois pièces',
        'Total à payer, en EUR',
        '1 sur ',
        'vendredi 9 octobre 2026',
      ],
    ],
    [
      'de',
      'de',
      [
        'ANGEBOT',
        'ERSTELLT FÜR',
        'Festpreis',
        'Drei Kleidungsstücke',
        'Gesamtbetrag, in EUR',
        '1 von ',
        'Freitag, 9. Oktober 2026',
      ],
    ],
  ] as const)(
    'speaks %s, with figures and days as they are written there, and stays so',
    async (language, tag, said) => {
      const { url, clientId } = await aCommission(studio);
      await speak(clientId, language);
      const paper = await issueQuote(studio, await beginQuote(studio, url));
      const pdf = await bytesOf(studio, `${paper}.pdf`);
      if (LOOK) writeFileSync(join(LOOK, `quote-${language}.pdf`), pdf);
      const read = await readPdf(pdf);
      const text = flat(read.pages);
      expect(read.language).toBe(tag);
      for (const words of said) expect(text.toLowerCase()).toContain(words.toLowerCase());
      for (const english of [
        'Prepared for',
        'Valid until',
        'Not included',
        'Signature of',
        'Total to pay',
        ' of 2',
      ])
        expect(text.toLowerCase()).not.toContain(english.toLowerCase());
      for (const own of ['Cut and made by hand', 'Guild of the river towns 417', '<b>Mind the stairs.</b>'])
        expect(text).toContain(own);
      expect(text).toMatch(/\d,\d{2}\b/);
      expect(text).not.toMatch(/\d\.\d{2}\b/);

      const { document } = (await studio.api('GET', `/api${paper}`)).json();
      expect(document.sheet.language).toBe(tag);
      expect(document.sheet.letterhead.logo).toMatch(/^sha256:[0-9a-f]{64}$/);
      await speak(clientId, '');
      expect(await bytesOf(studio, `${paper}.pdf`)).toEqual(pdf);
      expect((await studio.api('GET', `/api${paper}`)).json().document.sheet.labels.for).toBe(
        document.sheet.labels.for,
      );
    },
  );

  it('speaks English where nothing was chosen, on Letter too', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      await studioBook.correct(writing, { ...(await studioBook.the(writing)), sheet: 'Letter' });
      writing.says('Took other paper', 'house');
    });
    const { url } = await aCommission(studio);
    const draft = await beginQuote(studio, url);
    const preview = await bytesOf(studio, `${draft}/preview.pdf`);
    if (LOOK) writeFileSync(join(LOOK, 'quote-en.pdf'), preview);
    const { pages, language, size } = await readPdf(preview);
    expect(size).toEqual([612, 792]);
    const text = flat(pages);
    expect(language).toBe('en-GB');
    for (const words of [
      'PREPARED FOR',
      'Preview, not issued',
      'Three garments',
      'Total to pay, in EUR',
      '1 of ',
    ])
      expect(text).toContain(words);
    expect(text).toContain('Friday 9 October 2026');
  });
});
