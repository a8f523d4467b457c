import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestStudio } from '../../support/studio.js';

/** Words of a page, for a message when it is not the one that was hoped for. */
export const wordsOf = (text: string): string =>
  text
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .slice(0, 1500);

export const aSupplier = async (studio: TestStudio, name = 'Weir Bridge Mill'): Promise<string> =>
  (await studio.api('POST', '/api/suppliers', { name })).json().id;

export const aMaterial = async (studio: TestStudio, more: object = {}): Promise<string> => {
  const sent = { name: 'Country tweed', kind: 'cloth', unit: 'm', method: 'lot', ...more };
  const made = await studio.api('POST', '/api/materials', sent);
  expect(made.status, made.text).toBe(201);
  return made.json().id;
};

export type BoughtLot = { id: string; code: string; landed: string; left: string; value: string };

/** Buys lines of materials; answers the lots. */
export const buy = async (
  studio: TestStudio,
  supplierId: string,
  lines: readonly object[],
  more: object = {},
): Promise<{ id: string; lots: BoughtLot[] }> => {
  const sent = { supplierId, boughtOn: '2026-03-02', lines, ...more };
  const made = await studio.api('POST', '/api/purchases', sent);
  expect(made.status, made.text).toBe(201);
  return made.json();
};

/** Posts a form; answers where it led. */
export const pressed = async (
  studio: TestStudio,
  url: string,
  fields: Record<string, string>,
): Promise<string> => {
  const answer = await studio.post(url, { once: randomUUID(), ...fields });
  expect(answer.status, wordsOf(answer.text)).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};

/** What the lots and the movements of a material come to; they must say the same. */
export const bookOf = async (
  studio: TestStudio,
  materialId: string,
): Promise<{ left: number; value: string }> => {
  const { lots } = (await studio.api('GET', `/api/materials/${materialId}`)).json();
  const { items } = (await studio.api('GET', `/api/materials/${materialId}/movements`)).json();
  const cents = (amounts: { [key: string]: string }[], name: string): number =>
    amounts.reduce(
      (sum, one) => sum + Math.trunc(Number(one[name]) * 1000 + 0.5 * Math.sign(Number(one[name]))),
      0,
    );
  expect(cents(lots, 'value')).toBe(cents(items, 'cost'));
  return {
    left: lots.reduce((sum: number, { left }: BoughtLot) => sum + Number(left), 0),
    value: (cents(lots, 'value') / 1000).toFixed(2),
  };
};
