import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { houseAt } from '../../../src/web/papers/house-at.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('what a paper lacks of the house', () => {
  it.each([
    'seller.name',
    'seller.address',
    'seller.country',
    'seller.registration',
    'seller.taxNumber',
    'seller.tax',
    'taxReasons',
    'currency',
    'lines.0.rate',
    'garments.2.category',
  ])('is mended in a field of House that is there: %s', async (field) => {
    const [page = '', place = ''] = houseAt(field).split('#');
    expect(place).toMatch(/^field-/);
    const { status, text } = await studio.get(page);
    expect(status).toBe(200);
    expect(text).toContain(`id="${place}"`);
  });

  it('is mended with the invoices where it is about payment, and in the contents where nobody knows', async () => {
    expect(houseAt('payment.account')).toBe('/house/invoices');
    expect((await studio.get('/house/invoices')).status).toBe(200);
    expect(houseAt('somewhere')).toBe('/house');
  });
});
