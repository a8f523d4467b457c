import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('a commission', () => {
  it('is corrected, with another payer; a stale form shows both versions', async () => {
    const url = await openCommission(studio, { title: 'Before' });
    const form = await studio.get(`${url}/correct`);
    expect(form.text).toContain('value="Before"');
    const fields = { version: '1', client: 'Corvin Haddlestone', title: 'After', 'confirm.payer': 'yes' };
    const first = await studio.post(url, { once: randomUUID(), ...fields, payer: 'Quill Estate' });
    expect(first.status).toBe(303);
    expect((await studio.get(url)).text).toContain('Quill Estate');
    const second = await studio.post(url, { once: randomUUID(), ...fields, title: 'Other' });
    expect(second.status).toBe(409);
    expect(second.text).toContain('value="Other"');
    expect(second.text).toContain('<q>After</q>');
  });

  it('is priced by choices of its own, said in words', async () => {
    const url = await openCommission(studio);
    const form = await studio.get(`${url}/pricing`);
    expect(form.text).toContain('name="profitShare" type="text" class="figure short" value="10"');
    const fields = {
      version: '1',
      certainty: '0.9',
      profitBasis: 'markup',
      profitShare: '62,5',
      handlingShare: '15 %',
      minimumCharge: '18',
      rushShare: '25',
      rushOn: 'price',
      roundTo: '5',
      discount: '1,234.50',
      depositRule: 'materials-and-labour',
      depositShare: '30',
    };
    expect((await studio.post(`${url}/pricing`, { once: randomUUID(), ...fields })).status).toBe(303);
    const { text } = await studio.get(url);
    for (const words of [
      '9 in 10',
      '62.5 % of the cost',
      '€1,234.50',
      'all materials and 30 % of the labour',
    ])
      expect(text).toContain(words);
    for (const [name, value, said] of [
      ['profitShare', 'NaN', 'is not a percentage'],
      ['discount', '1e308', 'is not an amount'],
      ['discount', '-4', 'cannot be less than nought'],
      ['minimumCharge', '1234567890123', 'too large'],
      ['roundTo', '1.005', 'did you mean'],
    ] as const) {
      const refused = await studio.post(`${url}/pricing`, {
        once: randomUUID(),
        ...fields,
        version: '2',
        [name]: value,
      });
      expect([name, refused.status]).toEqual([name, 422]);
      expect(refused.text).toContain(said);
      expect(refused.text).toContain(`value="${value}"`);
    }
    const margin = await studio.post(`${url}/pricing`, {
      once: randomUUID(),
      ...fields,
      version: '2',
      profitBasis: 'margin',
      profitShare: '100',
    });
    expect(margin.status).toBe(422);
    expect(margin.text).toContain('must stay below 100 %');
  });
});

describe('commissions for programs', () => {
  it('are opened, read, corrected and priced, with versions', async () => {
    const client = (await studio.api('POST', '/api/clients', { name: 'By Program' })).json();
    const made = await studio.api('POST', '/api/commissions', {
      clientId: client.id,
      title: 'Sent',
      garments: [{ typeId: 'waistcoat', make: 'all-hand' }],
    });
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({ title: 'Sent', discount: '0.00', garments: [{ name: 'Waistcoat' }] });
    const url = String(made.headers.location);
    const priced = await studio.api(
      'PUT',
      `${url}/pricing`,
      {
        certainty: '0.5',
        profitBasis: 'margin',
        profitShare: '0.25',
        depositRule: 'none',
        discount: '12.50',
      },
      { 'if-match': '"1"' },
    );
    expect(priced.json()).toMatchObject({ version: 2, pricing: { profitShare: '0.25' }, discount: '12.50' });
    const stale = await studio.api('PUT', url, { clientId: client.id, title: 'X' }, { 'if-match': '"1"' });
    expect(stale.status).toBe(412);
    const added = await studio.api('POST', `${url}/garments`, { typeId: 'breeches' });
    expect(added.status).toBe(201);
    expect(await garmentsOf(studio, url.replace('/api', ''))).toHaveLength(2);
  });

  it('are refused field by field', async () => {
    const answer = await studio.api('POST', '/api/commissions', {
      clientId: 'x',
      garments: [],
      colour: 'red',
    });
    expect(answer.status).toBe(422);
    expect(answer.json().errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/garments',
      '/colour',
    ]);
    const nobody = await studio.api('POST', '/api/commissions', {
      clientId: randomUUID(),
      garments: [{ typeId: 'waistcoat' }],
    });
    expect(nobody.status).toBe(404);
  });
});

describe('the prices of a commission', () => {
  it('come from the sums once an hour has its cost; a price by hand and the discount stand in them', async () => {
    const url = await openCommission(studio, { 'garments.1.type': 'waistcoat' });
    const [jacket] = await garmentsOf(studio, url);
    expect((await studio.get(url)).text).not.toContain('Together');
    const hour = {
      name: 'Odalys Fenwright',
      pay: '22000',
      weeks: '46',
      hoursAWeek: '34',
      productiveShare: '62',
    };
    const rates = { once: randomUUID(), version: '0', from: '2026-03-02', ...hour };
    expect((await studio.post('/rates/hour', rates)).status).toBe(303);
    const cost = (await studio.api('GET', `/api/garments/${jacket!.split('/').at(-1)}/cost-sheet`)).json();
    expect((await studio.get(url)).text).toContain(
      `€${Number(cost.price.net).toLocaleString('en', { minimumFractionDigits: 2 })}`,
    );
    await studio.post(`${jacket}/price`, { once: randomUUID(), version: '1', ownPrice: '310' });
    const { text } = await studio.get(url);
    expect(text).toContain('€310.00');
    expect(text).toContain('set by hand');
  });
});
