import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PdfPrinter } from '../../../../src/printing/browser/pdf-printer.js';
import { readPdf } from '../../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
let clientId: string;
let setUrl: string;
beforeAll(async () => {
  studio = await openTestStudio();
  const client = { name: 'Corvin Haddlestone', address: 'The Apiary\nLong Reach Lane' };
  clientId = String((await studio.api('POST', '/api/clients', client)).json().id);
  const take = (takenOn: string, chest: string) =>
    studio.api('POST', `/api/clients/${clientId}/measurements`, {
      takenOn,
      takenBy: 'Odalys Fenwright',
      over: 'shirt and waistcoat',
      figuration: 'right shoulder lower\n{{markup}} <b>stands</b>',
      garmentType: 'waistcoat',
      values: [
        { dimension: 'chest-girth', typed: chest },
        { dimension: 'waist-girth', typed: '97,8 cm' },
      ],
    });
  await take('2025-01-05', '41 in');
  setUrl = `/clients/${clientId}/measurements/${(await take('2026-01-05', '41½ in full')).json().id}`;
});
afterAll(() => studio.close());

/** The bytes of an answer, which the test client gives as text. */
const pdfAt = async (url: string) => {
  const answer = await studio.app.inject({ method: 'GET', url, headers: { cookie: studio.cookie } });
  expect(answer.statusCode, answer.payload.slice(0, 400)).toBe(200);
  expect(answer.headers['content-type']).toBe('application/pdf');
  const pdf = await readPdf(answer.rawPayload);
  return { ...pdf, text: pdf.pages.join('\n').replace(/\s+/g, ' ') };
};

describe('the card of a set', () => {
  it('shows code, date, who, over what, values as typed with their change and figuration; no name, address or price', async () => {
    const { text, size, isTagged } = await pdfAt(`${setUrl}/card.pdf`);
    for (const words of [
      'C-0001',
      '5 January 2026',
      'Odalys Fenwright',
      'shirt and waistcoat',
      'Chest chest girth 41 1/2 in full +1/2 in',
      '97.8 cm',
      'right shoulder lower',
      '{{markup}} <b>stands</b>',
    ])
      expect(text, words).toContain(words);
    expect(text).not.toMatch(/Haddlestone|Apiary|Reach Lane|€|£/);
    expect(size).toEqual([595, 420]);
    expect(isTagged).toBe(true);
  });

  it('has a blank ruled copy of a list', async () => {
    const { text } = await pdfAt(`/clients/${clientId}/measurements/blank.pdf?type=breeches`);
    expect(text).toContain('Below the knee lower knee girth');
    expect(text).toContain('Breeches');
    expect(text).not.toMatch(/C-0001|Fenwright|2026/);
    const none = await studio.get(`/clients/${clientId}/measurements/blank.pdf?type=no-such`);
    expect(none.status).toBe(404);
  });

  it('says how to get a browser where there is none', async () => {
    const bare = await openTestStudio();
    try {
      const printer = bare.app.get(PdfPrinter) as unknown as { settings: object };
      printer.settings = { ...printer.settings, find: async () => undefined };
      const id = String((await bare.api('POST', '/api/clients', { name: 'A' })).json().id);
      const answer = await bare.get(`/clients/${id}/measurements/blank.pdf?type=breeches`);
      expect(answer.status).toBe(409);
      expect(answer.text).toContain('Printing needs a browser');
    } finally {
      await bare.close();
    }
  });
});
