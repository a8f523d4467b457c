import { mkdirSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission, planOf } from '../commissions/an-opening.js';

let studio: TestStudio;
let commission: string;
let jacket: string;
let fitting: string;

const idOf = (url: string): string => url.split('/').at(-1)!;

beforeAll(async () => {
  studio = await openTestStudio();
  commission = await openCommission(studio, {
    'garments.0.name': 'Corvin Haddlestone’s bee coat',
    'garments.0.due': '2026-05-01',
    'garments.1.type': 'waistcoat',
    'garments.1.make': 'all-hand',
  });
  const urls = await garmentsOf(studio, commission);
  jacket = urls[0]!;
  const made = await studio.api('POST', `/api${commission}/fittings`, {
    kind: 'baste',
    on: '2026-03-02',
    at: '08:00',
    garmentIds: urls.map(idOf),
  });
  fitting = `${commission}/fittings/${made.json().id}`;
  const held = await studio.api('PUT', `/api${fitting}/held`, {
    on: '2026-03-02',
    present: 'Odalys Fenwright',
    worn: 'Brown shoes, thick shirt',
    notes: 'Stands more on the left foot. {{name}}',
    corrections: [
      { garmentId: idOf(jacket), place: 'Left shoulder', direction: 'raise', amount: '6 mm' },
      { garmentId: idOf(jacket), place: 'Sleeve pitch', direction: 'back', amount: '' },
      { garmentId: idOf(urls[1]!), place: 'Side seams', direction: 'let-out', amount: '1.5 cm' },
    ],
    patternChanged: true,
    patternWords: 'Left shoulder raised by 6 mm',
    nextOn: '2026-03-16',
    nextAt: '14:30',
    nextKind: 'forward',
  });
  expect(held.status, held.text).toBe(200);
  const [first] = await planOf(studio, jacket);
  await studio.unit.write(studio.visit, async (writing) => {
    const words = { kind: 'operation-finished', on: '2026-03-02', words: '', document: '' } as const;
    const ids = { garmentId: idOf(jacket), commissionId: idOf(commission), operationId: first!.id };
    await garmentMarkBook.add(writing, { ...words, ...ids });
    writing.says('Finished', 'house');
  });
});
afterAll(() => studio.close());

const printed = async (url: string) => {
  const answer = await studio.app.inject({ url, headers: { authorization: `Bearer ${studio.token}` } });
  expect(answer.statusCode, answer.payload.slice(0, 500)).toBe(200);
  expect(answer.headers['content-type']).toBe('application/pdf');
  const folder = process.env.PAPERS_TO_LOOK_AT;
  if (folder) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(`${folder}/${url.split('/').at(-1)}`, answer.rawPayload);
  }
  const pdf = await readPdf(answer.rawPayload);
  return { ...pdf, text: pdf.pages.join('\n').replace(/\s+/g, ' ') };
};

const NEVER = /Haddlestone|Corvin|bee coat|€|EUR|\{\{|&lt;/;

describe('the papers of the bench', () => {
  it('docket: number, code, next operations and dates on one A6, no name and no price', async () => {
    const { text, pages, size, isTagged } = await printed(`/api/garments/${idOf(jacket)}/docket.pdf`);
    const [done, next] = await planOf(studio, jacket);
    for (const words of [
      'Lounge jacket',
      'C-0001',
      '1 May 2026',
      'forward fitting 16 March, 14:30',
      String(next!.name),
    ])
      expect(text, words).toContain(words);
    expect(text).not.toContain(String(done!.name));
    expect(text).toMatch(/and \d+ operations more/);
    expect(text).toMatch(/scrap of cloth/i);
    expect(text).not.toMatch(NEVER);
    expect(pages).toHaveLength(1);
    expect(size).toEqual([298, 420]);
    expect(isTagged).toBe(true);
  });

  it('making sheet: every operation with its planned time, its head on every page', async () => {
    const { text, pages, size } = await printed(`${jacket}/making-sheet.pdf`);
    const plan = await planOf(studio, jacket);
    // A name may be broken at its hyphen.
    const whole = text.replaceAll('- ', '-');
    for (const { name } of plan) expect(whole).toContain(String(name).replaceAll('- ', '-'));
    expect(text).toContain('finished');
    expect(text).not.toMatch(NEVER);
    expect(size).toEqual([420, 595]);
    expect(pages.length).toBeGreaterThan(1);
    for (const [place, page] of pages.entries()) {
      expect(page).toContain(`${place + 1} of ${pages.length}`);
      expect(page).toMatch(/start/i);
      expect(page).toContain('C-0001');
    }
  });

  it('fitting notes: corrections, who and what, next date, two outlines; blank where none is planned', async () => {
    const { text, pages, size } = await printed(`/api${fitting}/notes.pdf`);
    for (const words of [
      'FITTING NOTES: BASTE FITTING',
      'Odalys Fenwright',
      'Brown shoes, thick shirt',
      'Left shoulder lounge jacket raise 6 mm',
      'Side seams waistcoat let out 1.5 cm',
      'Left shoulder raised by 6 mm',
      '16 March 2026, 14:30, forward fitting',
      'Front',
      'Back',
    ])
      expect(text, words).toContain(words);
    expect(text.replace('{{name}}', '')).not.toMatch(NEVER);
    expect(text).toContain('{{name}}');
    expect(pages).toHaveLength(1);
    expect(size).toEqual([595, 842]);
    const other = await openCommission(studio, { client: 'Isaura Pellgrove' });
    const [garment] = await garmentsOf(studio, other);
    const blank = await printed(`/api/garments/${idOf(garment!)}/fitting-notes.pdf`);
    expect(blank.text).toContain('DATE PRESENT WORN PATTERN NO.');
    expect(blank.text).toContain('C-0002');
    expect(blank.pages).toHaveLength(1);
  });

  it('is not printed under another commission’s address', async () => {
    const wrong = jacket.replace(idOf(commission), 'another');
    expect((await studio.get(`${wrong}/docket.pdf`)).status).toBe(404);
  });
});
