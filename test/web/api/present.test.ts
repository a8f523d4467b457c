import { afterAll, beforeAll, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const made = async (url: string, body: object): Promise<{ url: string; body: any }> => {
  const answer = await studio.api('POST', url, body);
  expect(answer.status, answer.text).toBe(201);
  return { url: String(answer.headers.location ?? ''), body: answer.json() };
};

type Change = readonly [method: 'PUT' | 'DELETE' | 'POST', url: string, body?: object, shownAt?: string];

/** Every change of a versioned thing, each with a body that could be meant. */
const everyChange = async (): Promise<Change[]> => {
  const client = await made('/api/clients', { name: 'Corvin Haddlestone', taxNumber: 'IE1234567FA' });
  const said = { clientId: client.body.id, title: 'A jacket' };
  const jacket = { typeId: 'lounge-jacket', make: 'hand-where-it-shows' };
  const commission = await made('/api/commissions', { ...said, garments: [jacket, jacket] });
  const garment = `/api/garments/${commission.body.garments[0].id}`;
  const tweed = { name: 'tweed', quantity: '2', unit: 'm', unitCost: '46.00' };
  const material = await made(`${garment}/materials`, tweed);
  const post = { name: 'post', amount: '12.00' };
  const expense = await made(`${garment}/expenses`, post);
  const [operation] = (await studio.api('GET', `${garment}/plan`)).json().items;
  const sewn = { name: 'sew', stage: 'make', mode: 'hand' };
  const quote = await made(`${commission.url}/quotes`, {});
  const { choices } = (await studio.api('GET', quote.url)).json();
  const shelf = { name: 'Country tweed', kind: 'cloth', unit: 'm', method: 'lot' };
  const cloth = await made('/api/materials', shelf);
  const lot = await made('/api/lots', { materialId: cloth.body.id, origin: 'stash', quantity: '2' });
  const supplier = await made('/api/suppliers', { name: 'Weir Bridge Mill' });
  const token = await made('/api/house/tokens', { name: 'a till' });
  const { operations } = (await studio.api('GET', '/api/house/garment-types/stays')).json();
  const known = { ...sewn, driver: 'once', fixedMinutes: 45 };
  const { list } = (await studio.api('GET', '/api/measuring-lists/stays')).json();
  const totals = await made('/api/lessons/import', { garments: [{ type: 'stays', hours: '60' }] });
  const past = `/api/lessons/garments/${totals.body.items[0].id}`;
  const pricing = (await studio.api('GET', `${commission.url}`)).json().pricing;
  const house = await Promise.all(
    ['identity', 'units', 'tax', 'pricing', 'quotes', 'hours', 'keys'].map(
      async (path): Promise<Change> => [
        'PUT',
        `/api/house/${path}`,
        (await studio.api('GET', `/api/house/${path}`)).json(),
      ],
    ),
  );
  return [
    ['PUT', client.url, { name: 'Matched' }],
    ['PUT', commission.url, said],
    ['PUT', `${commission.url}/pricing`, pricing, commission.url],
    ['PUT', garment, jacket],
    ['PUT', `${garment}/price`, { ownPrice: '900.00' }, garment],
    ['DELETE', garment],
    ['PUT', material.url, tweed],
    ['DELETE', material.url],
    ['PUT', expense.url, post],
    ['DELETE', expense.url],
    ['PUT', `${garment}/plan`, { items: [sewn] }],
    ['PUT', `${garment}/plan/${operation.id}`, sewn],
    ['DELETE', `${garment}/plan/${operation.id}`],
    ['PUT', quote.url, choices],
    ['POST', `${quote.url}/remove`, {}, quote.url],
    ['POST', `${quote.url}/issue`, {}, quote.url],
    ['PUT', cloth.url, shelf],
    ['PUT', lot.url, { age: 'new' }],
    ['PUT', supplier.url, { name: 'Weir' }],
    ['DELETE', token.url],
    ['PUT', '/api/house/garment-types/stays', { name: 'stays', plural: 'stays' }],
    ['PUT', `/api/house/operations/${operations[0].id}`, known],
    ['DELETE', `/api/house/operations/${operations[0].id}`],
    ['PUT', '/api/measuring-lists/stays', { list }],
    ['PUT', '/api/lessons/garment-types/stays', { ownGuess: '55' }],
    ['PUT', past, { type: 'stays', hours: '61' }],
    ['DELETE', past],
    ...house,
  ];
};

it('a change that comes too late is told the present thing as GET answers it', async () => {
  for (const [method, url, body, shownAt = url] of await everyChange()) {
    const late = await studio.api(method, url, body, { 'if-match': '"999"' });
    expect([method, url, late.status], late.text.slice(0, 600)).toEqual([method, url, 412]);
    const shown = await studio.api('GET', shownAt);
    expect(shown.status).toBe(200);
    expect([method, url, late.json().present]).toEqual([method, url, shown.json()]);
  }
});
