import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
const made = async (path: string, body: unknown) => {
  const answer = await studio.api('POST', path, body);
  expect([200, 201], answer.text).toContain(answer.status);
  return answer.json();
};
const year = async (asked = '') => (await studio.api('GET', `/api/rates/year${asked}`)).json();

beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the year', () => {
  it('is empty before there is anything, without rates too', async () => {
    const told = await year();
    expect(told).toMatchObject({ year: '2026', from: '2026-01-01', to: '2026-03-02', received: '0.00' });
    expect(told.overhead).toBeNull();
    const page = await studio.get('/rates/year');
    expect(page.status).toBe(200);
    expect(page.text).toContain('No garment with a reckoning was closed in this year.');
    expect(page.text).not.toMatch(/NaN|undefined/);
  });

  it('counts what came in, what was worked, and what the garments earned', async () => {
    await made('/api/rates', {
      from: '2026-01-01',
      people: [{ name: 'Odalys Fenwright', plainPerHour: '24.00' }],
      overhead: [],
    });
    const client = await made('/api/clients', { name: 'Corvin Haddlestone' });
    const { id } = await made('/api/commissions', {
      clientId: client.id,
      garments: [{ typeId: 'waistcoat', name: 'Waistcoat', make: 'all-hand' }],
    });
    const garment = (await studio.api('GET', `/api/commissions/${id}/garments`)).json().items[0].id;
    const plan = (await studio.api('GET', `/api/garments/${garment}/plan`)).json().items;
    const entries = `/api/garments/${garment}/bench-entries`;
    const hand = plan.find((one: any) => one.mode === 'hand' && one.basting);
    await made(entries, { operation: hand.id, minutes: 90, on: '2026-03-01', evenIfOdd: true });
    await made(entries, { operation: hand.id, minutes: 60, on: '2025-12-31', evenIfOdd: true });
    await made(entries, {
      what: 'Re-cut the facing',
      cause: 'own error',
      mode: 'bench',
      minutes: 40,
      on: '2026-03-01',
      evenIfOdd: true,
    });
    await made('/api/payments', {
      clientId: client.id,
      on: '2026-03-01',
      amount: '120.00',
      how: 'transfer',
      note: '',
    });
    await made(`/api/garments/${garment}/reckoning`, { price: '250.00', unwritten: 'none' });
    const told = await year();
    expect(told.received).toBe('120.00');
    expect(told.hours).toMatchObject({ onGarments: 130, ownError: 40 });
    expect(told.hours.byMode.find((one: any) => one.mode === 'hand').minutes).toBe(90);
    expect(told.basting).toBe(90);
    // 40 minutes at 24.00 an hour.
    expect(told.ownErrorCost).toBe('16.00');
    expect(told.garments).toMatchObject({ garments: 1, without: 0, price: '250.00' });
    expect(told.garments.byType[0].typeId).toBe('waistcoat');
    const before = await year('?year=2025');
    expect(before).toMatchObject({ to: '2025-12-31', received: '0.00', basting: 60 });
    expect(before.hours.onGarments).toBe(60);
  });

  it('is a page and a table, and refuses what is no year', async () => {
    const page = (await studio.get('/rates/year?year=2026')).text;
    expect(page).toContain('the only type closed in this year');
    expect(page).not.toMatch(/NaN|undefined/);
    const csv = await studio.get('/rates/year/table.csv?year=2026');
    expect(csv.headers['content-type']).toContain('text/csv');
    expect(csv.text).toContain('Money,Received,EUR,120.00,,payments less refunds\r\n');
    expect(csv.text).toContain('Hours,Own errors,,,0.67,among the hours on garments');
    expect((await studio.get('/rates')).text).toContain('/rates/year');
    for (const wrong of ['2027', '20x6', '-1', '99999'])
      expect((await studio.api('GET', `/api/rates/year?year=${wrong}`)).status, wrong).toBe(422);
  });
});
