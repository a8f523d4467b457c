import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../../../printing/papers/read-pdf.js';
import { bytesOf } from '../../quotes/a-commission.js';
import { anOffering, type Offering, pocket } from './an-offering.js';

let at: Offering;
beforeAll(async () => {
  at = await anOffering();
});
afterAll(() => at.studio.close());

describe('the client’s card', () => {
  it('shows words, price and day, and nothing private in its source', async () => {
    const url = await at.offer();
    const { text } = await at.studio.get(`${url}/card`);
    for (const words of [
      'A secret pocket inside',
      '€67.65, tax included',
      '24 March 2026 in place of 20 March 2026',
    ])
      expect(text).toContain(words);
    for (const word of [
      'hour',
      'minute',
      'cost',
      'margin',
      'profit',
      'asked',
      'cause',
      'Waistcoat',
      'Lessons',
      'Rates',
      'certainty',
    ])
      expect(text.toLowerCase()).not.toContain(word.toLowerCase());
  });

  it('is agreed on by name, once, and shown again as agreed', async () => {
    const url = await at.offer({ wording: 'Horn buttons' });
    const nobody = await at.studio.post(`${url}/card`, { once: randomUUID(), byWhom: '', how: 'in person' });
    expect(nobody.status).toBe(422);
    expect(nobody.text).toContain('Please write your name');
    const yes = { once: randomUUID(), byWhom: 'Corvin Haddlestone', how: 'in person' };
    expect((await at.studio.post(`${url}/card`, yes)).status).toBe(303);
    expect((await at.studio.get(`${url}/card`)).text).toContain(
      'Agreed by Corvin Haddlestone on 2 March 2026.',
    );
    expect((await at.studio.post(`${url}/card`, { ...yes, once: randomUUID() })).status).toBe(409);
  });

  it('comes as a PDF of one A6 page', async () => {
    const url = await at.offer({ wording: 'Silk facings <b>bold</b>' });
    const pdf = await readPdf(await bytesOf(at.studio, `${url}/card.pdf`));
    expect(pdf.pages).toHaveLength(1);
    expect(pdf.pages[0]).toContain('Silk facings <b>bold</b>');
    expect(pdf.pages[0]).toContain('€67.65');
    expect(pdf.pages[0]).not.toMatch(/minute|cost|margin/i);
  });
});

describe('an agreed extra', () => {
  it('goes into the plan under its own key, with its cloth, and moves the day', async () => {
    const url = await at.offer({
      wording: 'Cuffs that open',
      'lines.0.line': 'working cuffs',
      material: 'sleeve lining',
      quantity: '0.4 m @ 9',
      dueAfter: '2026-03-27',
    });
    expect((await at.planned()).map(({ name }) => name)).not.toContain('working cuffs');
    expect((await at.agree(url)).status).toBe(303);
    const garment = (await at.studio.api('GET', `/api/garments/${at.order.garments[0]}`)).json();
    expect(garment.plan.map(({ name }: { name: string }) => name)).toContain('working cuffs');
    expect(garment.materials.map(({ name }: { name: string }) => name)).toContain('sleeve lining');
    expect(garment.dueOn).toBe('2026-03-27');
    const number = Number(url.split('/').at(-1));
    expect((await at.studio.get(at.job)).text).toContain(`extra ${number} · by hand`);
    const { agreed, quoted } = (
      await at.studio.api('GET', `/api/garments/${at.order.garments[0]}/agreed-plan`)
    ).json();
    const names = (of: { plan: { name: string }[] }): string[] => of.plan.map(({ name }) => name);
    expect(names(agreed)).toContain('working cuffs');
    expect(names(quoted)).not.toContain('working cuffs');
    const extra = (await at.studio.api('GET', `/api${at.order.url}/extras/${number}`)).json();
    expect(extra.work.operations[0].line.id).toBe(
      garment.plan.find(({ name }: { name: string }) => name === 'working cuffs').id,
    );
  });

  it('never changes: it cannot be answered again, or undone', async () => {
    const url = await at.offer({ wording: 'A ticket pocket' });
    const agreed = await at.agree(url);
    expect((await at.studio.get(String(agreed.headers.location))).text).not.toContain('>Undo<');
    expect((await at.agree(url, { act: 'declined' })).status).toBe(409);
    expect((await at.studio.get(url)).text).toContain('Offer to take it back');
  });

  it('is taken back by another, which takes its work out of the plan', async () => {
    const url = await at.offer({ wording: 'Piped seams', 'lines.0.line': 'piped seams' });
    await at.agree(url);
    const back = await at.studio.post(`${url}/take-back`, { once: randomUUID(), wording: 'Without piping' });
    expect(back.status).toBe(303);
    const second = String(back.headers.location).split('?')[0]!;
    const pair = (await at.studio.api('GET', `/api${second}`)).json();
    expect(pair).toMatchObject({ price: '-55.00', state: 'offered' });
    expect((await at.planned()).map(({ name }) => name)).toContain('piped seams');
    await at.agree(second);
    expect((await at.planned()).map(({ name }) => name)).not.toContain('piped seams');
    expect((await at.studio.api('GET', `/api${url}`)).json()).toMatchObject({ stands: false });
    expect((await at.studio.post(`${url}/take-back`, { once: randomUUID(), wording: 'Again' })).status).toBe(
      409,
    );
  });

  it('is given at no price, or declined and given all the same', async () => {
    const given = await at.offer({
      cause: 'own choice',
      wording: 'A heavier chest piece',
      kind: 'compliments',
    });
    expect((await at.studio.api('GET', `/api${given}`)).json()).toMatchObject({
      price: '0.00',
      kind: 'compliments',
      state: 'agreed',
    });
    expect((await at.studio.get(`${given}/card`)).text).toContain('With our compliments');
    const offered = await at.offer({ cause: 'own choice', wording: 'A pick stitched edge' });
    await at.agree(offered, { act: 'declined', byWhom: '', how: '' });
    expect((await at.studio.get(offered)).text).toContain('Give it all the same');
    expect((await at.agree(offered, { act: 'given', byWhom: '', how: '' })).status).toBe(303);
    expect((await at.studio.get(`${at.order.url}/extras`)).text).toContain(
      'given with our compliments on 2 March 2026',
    );
    expect((await at.studio.get(at.order.url)).text).toContain('A pick stitched edge');
  });

  it('pressed twice is one extra, and numbers are given in one row', async () => {
    const fields = { once: randomUUID(), ...pocket, wording: 'Once only', price: '5', kind: 'charged' };
    const [one, two] = [
      await at.studio.post(`${at.job}/extras`, fields),
      await at.studio.post(`${at.job}/extras`, fields),
    ];
    expect(two.headers.location).toBe(one.headers.location);
    const { items } = (await at.studio.api('GET', `/api${at.order.url}/extras`)).json();
    expect(items.map(({ number }: { number: number }) => number)).toEqual(
      items.map((_: unknown, place: number) => place + 1),
    );
    expect(items.filter(({ wording }: { wording: string }) => wording === 'Once only')).toHaveLength(1);
  });
});

describe('a quote that is made afterwards', () => {
  it('leaves out the work of extras, which have prices of their own', async () => {
    const priceOf = async (): Promise<string> =>
      (await at.studio.api('POST', `/api${at.order.url}/quotes`)).json().net;
    const before = await priceOf();
    expect(before).toMatch(/\d{3}/);
    await at.agree(
      await at.offer({
        wording: 'A pouch for a compass',
        'lines.0.line': 'compass pouch',
        'lines.0.minutes': '600',
      }),
    );
    expect((await at.planned()).map(({ name }) => name)).toContain('compass pouch');
    expect(await priceOf()).toBe(before);
  });
});
