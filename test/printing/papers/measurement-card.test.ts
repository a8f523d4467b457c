import { afterAll, describe, expect, it } from 'vitest';
import { PdfPrinter } from '../../../src/printing/browser/pdf-printer.js';
import { blankCard, type MeasurementCard } from '../../../src/printing/papers/measurement-card.js';
import { card, stationery } from './quillmere.js';
import { readPdf } from './read-pdf.js';

const printer = new PdfPrinter();
const paper = stationery();

afterAll(() => printer.close());

const printed = async (of: MeasurementCard) => {
  const { html, sheet } = paper.card(of);
  const pdf = await readPdf(await printer.print(html, sheet));
  return { ...pdf, text: pdf.pages.join('\n').replace(/\s+/g, ' ') };
};

describe('a measurement card', () => {
  it('shows code, date, who, over what, values as typed and figuration on one A5 across', async () => {
    const { text, pages, size, isTagged, tags } = await printed(card());
    for (const words of [
      'CL-0027',
      '14 July 2026',
      'Odalys Fenwright',
      'Shirt and unlined waistcoat',
      'Chest chest girth 41 1/2 in +1/2 in',
      'Thigh thigh girth 60,4 cm +0,3 cm',
      'Right shoulder lower by 3/8 in',
      'Wears a watch',
    ]) {
      expect(text, words).toContain(words);
    }
    expect(pages).toHaveLength(1);
    expect(size).toEqual([595, 420]);
    expect(isTagged).toBe(true);
    expect(tags).toEqual(expect.arrayContaining(['H1', 'Table', 'TH']));
  });

  it('has a blank copy with the names, and nothing of the client', async () => {
    const { text, pages } = await printed(blankCard(card()));
    expect(text).toContain('Chest chest girth');
    expect(text).toContain('MEASURED BY');
    expect(text).not.toMatch(/CL-0027|2026|Fenwright|41 1\/2|shoulder lower|watch/);
    expect(pages).toHaveLength(1);
  });

  it('runs over with its head repeated when the list is long', async () => {
    const { measurements } = card();
    const { pages } = await printed(
      card({ measurements: [...measurements, ...measurements, ...measurements] }),
    );
    expect(pages.length).toBeGreaterThan(1);
    expect(pages[1]).toContain('MEASUREMENT');
    expect(pages[1]).toContain(`2 of ${pages.length}`);
    expect(pages[1]).toContain('CL-0027');
  });

  it('shows markup and template syntax as text', async () => {
    const odd = '<i>{{value}}</i>';
    const row = { trade: odd, iso: odd, value: odd, change: '' };
    const { text } = await printed(card({ measurements: [row], figuration: [odd], takenOver: odd }));
    expect(text.replaceAll(' ', '').match(/<i>\{\{value\}\}<\/i>/g)).toHaveLength(5);
  });
});
