import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { markBook } from '../../../src/storage/books/house/mark-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const the = () => studioBook.the(studio.read);
const fieldsOf = async (path: string): Promise<Record<string, string>> =>
  (await studio.api('GET', `/api/house/${path}`)).json();
const change = async (path: string, fields: Record<string, string>) =>
  studio.post(`/house/${path}`, { once: randomUUID(), ...(await fieldsOf(path)), ...fields });
const actOf = (location: unknown): string =>
  new URL(String(location), 'http://x').searchParams.get('done') ?? '';

describe('invoices and payment', () => {
  // The account is the example of the IBAN registry for Germany; see check vectors in the design of papers.
  const ACCOUNT = { iban: 'de89 3704 0044 0532 0130 00', bic: 'qlmr de 2d', accountName: 'Odalys Fenwright' };

  it('keeps the account without blanks, shows it in fours, and undoes it', async () => {
    expect((await studio.get('/house')).text).toContain('I-{year}-{000}; due in 14 days; no account yet');
    const answer = await change('invoices', {
      ...ACCOUNT,
      paymentDays: '30',
      treatment: 'payment-on-account',
    });
    expect(answer.status).toBe(303);
    expect((await the()).papers).toMatchObject({
      iban: 'DE89370400440532013000',
      bic: 'QLMRDE2D',
      paymentDays: 30,
      treatment: 'payment-on-account',
      taking: 'shared',
    });
    expect((await studio.get('/house/invoices')).text).toContain('DE89 3704 0044 0532 0130 00');
    expect((await studio.get('/house')).text).toContain('due in 30 days; DE89 3704 0044 0532 0130 00');
    await studio.post(`/history/${actOf(answer.headers.location)}/undo`, {
      once: randomUUID(),
      back: '/house',
    });
    expect((await the()).papers).toMatchObject({
      iban: '',
      paymentDays: 14,
      treatment: 'tax-due-on-deposits',
    });
  });

  it.each([
    ['iban', 'DE89370400440532013001', 'check digits'],
    ['iban', 'DE8937040044053201300', 'check digits'],
    ['iban', '<script>', 'is not an IBAN'],
    ['bic', 'QLMR', 'is not a BIC'],
    ['invoiceSeries', 'I-{year}', 'has no counter'],
    ['invoiceSeries', '', 'Say how numbers are made'],
    ['creditSeries', 'CN-{year}-{000}-{00}', 'two counters'],
    ['creditSeries', 'I-{year}-{0000}', 'numbers of their own'],
    ['paymentDays', '-1', 'At least 0'],
    ['paymentDays', '14.5', 'Say in how many days'],
    ['paymentDays', '9999', 'At most 365'],
    ['treatment', 'none', 'Choose one'],
    ['taking', '', 'Choose one'],
    ['terms', 'x'.repeat(4001), 'At most 4000'],
  ])('refuses, at %s, “%s” beside the field, with what was typed kept', async (field, typed, sentence) => {
    const before = await the();
    const answer = await change('invoices', { [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain(sentence);
    expect(answer.text).not.toContain('<script>');
    expect(await the()).toEqual(before);
  });

  it('wants an account beside a bank’s code', async () => {
    expect((await change('invoices', { bic: 'QLMRDE2D' })).text).toContain('give the account too');
  });

  it('is read and changed by programs, which say the version they saw', async () => {
    const { headers } = await studio.api('GET', '/api/house/invoices');
    const body = { ...(await fieldsOf('invoices')), iban: 'BE68 5390 0754 7034', paymentDays: 21 };
    const seen = { 'if-match': String(headers.etag) };
    const put = await studio.api('PUT', '/api/house/invoices', body, seen);
    expect(put.json()).toMatchObject({ iban: 'BE68 5390 0754 7034', paymentDays: '21' });
    expect((await studio.api('PUT', '/api/house/invoices', body, seen)).status).toBe(412);
    expect((await the()).papers.iban).toBe('BE68539007547034');
  });
});

describe('lines and language of papers', () => {
  it('keeps them, shows markup as words, and says that the words wait for a native speaker', async () => {
    const said = {
      strapline: 'Cut and made by hand',
      headLines: 'Guild of the river towns 417\n<b>bold</b>',
      smallPrint: 'Kept in Quillmere.',
      language: 'fr',
    };
    expect((await change('letterhead', said)).status).toBe(303);
    expect((await the()).papers).toMatchObject(said);
    const { text } = await studio.get('/house/letterhead');
    expect(text).toContain('&lt;b&gt;bold&lt;/b&gt;');
    expect(text).toContain('no native speaker has looked them through');
    expect((await studio.get('/house')).text).toContain(
      'French; Cut and made by hand; Guild of the river towns 417',
    );
    expect((await change('letterhead', { language: 'nl' })).status).toBe(422);
    expect((await change('letterhead', { strapline: 'x'.repeat(121) })).text).toContain('At most 120');
  });

  it('takes a language for one client alone', async () => {
    const client = { name: 'Corvin Haddlestone', paperLanguage: 'de' };
    const { id } = (await studio.api('POST', '/api/clients', client)).json();
    expect((await studio.get(`/clients/${id}`)).text).toContain('German');
    const page = await studio.get(`/clients/${id}/correct`);
    expect(page.text).toMatch(/<option value="de" selected>German/);
    expect((await studio.api('POST', '/api/clients', { ...client, paperLanguage: 'xx' })).status).toBe(422);
    expect((await studio.api('GET', `/api/clients/${id}`)).json().paperLanguage).toBe('de');
  });
});

describe('the mark', () => {
  const THIMBLE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"><path d="M1 3L2 0L3 3Z"/></svg>';
  const send = async (fields: Record<string, string>, bytes: Buffer | string) => {
    const edge = 'edge-of-a-part';
    const field = ([key, value]: [string, string]): string =>
      `--${edge}\r\ncontent-disposition: form-data; name="${key}"\r\n\r\n${value}\r\n`;
    const payload = Buffer.concat([
      Buffer.from(
        `--${edge}\r\ncontent-disposition: form-data; name="mark"; filename="a.png"\r\ncontent-type: image/png\r\n\r\n`,
      ),
      Buffer.from(bytes),
      Buffer.from(`\r\n${Object.entries(fields).map(field).join('')}--${edge}--\r\n`),
    ]);
    const answer = await studio.app.inject({
      method: 'POST',
      url: '/house/mark',
      headers: {
        'content-type': `multipart/form-data; boundary=${edge}`,
        'sec-fetch-site': 'same-origin',
        cookie: studio.cookie,
      },
      payload,
    });
    return { status: answer.statusCode, text: answer.payload, location: answer.headers.location };
  };
  const words = (fields: Record<string, string> = {}) => ({
    once: randomUUID(),
    alternative: 'A thimble "<b>',
    ...fields,
  });
  const kept = () => markBook.maybe(studio.read);

  it('explains itself while there is none', async () => {
    const { text } = await studio.get('/house/mark');
    expect(text).toContain('instead of the first letter of the name');
    expect((await studio.get('/house/mark/picture')).status).toBe(404);
    expect((await studio.api('GET', '/api/house/mark')).status).toBe(404);
    const nothing = await send(words(), '');
    expect(nothing.status).toBe(422);
    expect(nothing.text).toContain('Choose a picture');
  });

  it.each([
    [
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><script>1</script></svg>',
      'holds &lt;script&gt;',
    ],
    [
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><image href="file:///etc/passwd"/></svg>',
      'outside itself',
    ],
    [Buffer.alloc(500_001, 60), 'larger than 500 kB'],
    [Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]), 'cut off or damaged'],
    ['%PDF-1.7', 'no picture that can stand'],
  ])('refuses what may not stand on a paper, and keeps the words', async (bytes, sentence) => {
    const answer = await send(words(), bytes);
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(sentence);
    expect(answer.text).toContain('A thimble &quot;&lt;b&gt;');
    expect(await kept()).toBeUndefined();
  });

  it('is put there once however often it is sent, shown with its words, and taken off and back', async () => {
    const asked = words();
    const answers = await Promise.all([send(asked, THIMBLE), send(asked, THIMBLE)]);
    expect(answers.map(({ status }) => status)).toEqual([303, 303]);
    expect(await kept()).toMatchObject({ kind: 'svg', alternative: 'A thimble "<b>', version: 1 });
    const { text } = await studio.get('/house/mark');
    expect(text).toContain('src="/house/mark/picture?version&#x3D;1" alt="A thimble &quot;&lt;b&gt;"');
    const picture = await studio.get('/house/mark/picture');
    expect(picture.headers['content-type']).toContain('image/svg+xml');
    expect(picture.headers['content-security-policy']).toContain("default-src 'self'");
    expect(picture.text).toContain('<path d="M1 3L2 0L3 3Z"/>');
    // Only the words this time: the picture stays.
    expect((await send(words({ alternative: 'An oak leaf', version: '1' }), '')).status).toBe(303);
    expect(await kept()).toMatchObject({ alternative: 'An oak leaf', version: 2 });
    const late = await send(words({ version: '1' }), THIMBLE);
    expect(late.status).toBe(409);
    expect(late.text).toContain('Somebody changed this meanwhile');

    const off = await studio.post('/house/mark/take-off', { once: randomUUID(), version: '2' });
    expect(await kept()).toBeUndefined();
    const act = actOf(off.headers.location);
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/house/mark' });
    expect(await kept()).toMatchObject({ alternative: 'An oak leaf' });
    const history = (await studio.get('/history')).text;
    expect(history).toContain('Took the mark off the letterhead');
    expect(history).not.toContain((await kept())?.bytes.slice(0, 60));
  });

  it('is put and taken by programs', async () => {
    const body = { alternative: 'A thimble', bytes: Buffer.from(THIMBLE).toString('base64') };
    const { headers } = await studio.api('GET', '/api/house/mark');
    expect((await studio.api('PUT', '/api/house/mark', body, { 'if-match': '"1"' })).status).toBe(412);
    const put = await studio.api('PUT', '/api/house/mark', body, { 'if-match': String(headers.etag) });
    expect(put.json()).toMatchObject({ kind: 'svg', alternative: 'A thimble' });
    const spoilt = { ...body, bytes: '%%%' };
    const seen = { 'if-match': String(put.headers.etag) };
    expect((await studio.api('PUT', '/api/house/mark', spoilt, seen)).status).toBe(422);
    expect((await studio.api('DELETE', '/api/house/mark', undefined, seen)).status).toBe(200);
    expect(await kept()).toBeUndefined();
  });
});
