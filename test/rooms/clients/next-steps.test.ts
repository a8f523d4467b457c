import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

/* From a new client on, each page leads to the next one: found by somebody who used it for the first time. */

let studio: TestStudio;
let client: string;
beforeAll(async () => {
  studio = await openTestStudio();
  client = String((await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' })).json().id);
});
afterAll(() => studio.close());

describe('a client who is new', () => {
  it('leads to a commission that knows whom it is for', async () => {
    const { text } = await studio.get(`/clients/${client}`);
    const [, href = ''] = /href="([^"]+)"[^>]*>Open a commission</.exec(text) ?? [];
    expect((await studio.get(href.replaceAll('&amp;', '&').replaceAll('&#x3D;', '='))).text).toMatch(
      /name="client"[^>]*value="Corvin Haddlestone/,
    );
  });

  it('is measured by a list: until one is chosen, the page says where the rows are', async () => {
    const said = 'Choose above what is to be made';
    expect((await studio.get(`/clients/${client}/measurements/new`)).text).toContain(said);
    expect((await studio.get(`/clients/${client}/measurements/new?type=waistcoat`)).text).not.toContain(said);
  });

  it('hears that a garment without cloth is in its sum without cloth', async () => {
    const opened = await studio.api('POST', '/api/commissions', {
      clientId: client,
      garments: [{ typeId: 'waistcoat' }],
    });
    const commission = opened.json();
    const url = `/commissions/${commission.id}`;
    const said = 'No cloth or other material is in the sum of the Waistcoat';
    expect((await studio.get(url)).text).toContain(said);
    const garments = (await studio.api('GET', `/api${url}/garments`)).json();
    const { id } = (garments.items ?? garments)[0];
    const added = await studio.post(`${url}/garments/${id}/materials`, {
      name: 'tweed',
      quantity: '1 m',
      waste: '0',
      wasteOf: 'net',
      unitCost: '40',
    });
    expect(added.status, added.text.slice(0, 400)).toBeLessThan(400);
    expect((await studio.get(url)).text).not.toContain(said);
  });
});
