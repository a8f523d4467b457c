import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestStudio } from '../../support/studio.js';

/** A garment with its plan, as programs see it. */
export type BenchGarment = {
  readonly id: string;
  readonly commissionId: string;
  readonly number: string;
  readonly place: number;
  readonly plan: { id: string; name: string; kind: string; stage: string; mode: string }[];
};

/** Opens a commission of these types for Corvin Haddlestone. */
export const openGarments = async (studio: TestStudio, ...types: string[]): Promise<BenchGarment[]> => {
  const client = await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' });
  const made = await studio.api('POST', '/api/commissions', {
    clientId: client.json().id,
    garments: types.map((typeId) => ({ typeId })),
  });
  expect(made.status, made.text).toBe(201);
  const { id, number } = made.json();
  const { items } = (await studio.api('GET', `/api/commissions/${id}/garments`)).json();
  return Promise.all(
    items.map(async (one: { id: string; place: number }) => {
      const { plan } = (await studio.api('GET', `/api/garments/${one.id}`)).json();
      return { id: one.id, commissionId: id, number, place: one.place, plan };
    }),
  );
};

export const line = (garment: BenchGarment, kind: string): string => {
  const found = garment.plan.find((one) => one.kind === kind);
  if (!found) throw new Error(`${kind} is not among ${garment.plan.map((one) => one.kind).join(', ')}`);
  return found.id;
};

/** A tap, as a page without script sends it. @returns the answer */
export const tap = (studio: TestStudio, values: Record<string, string>, path = '') =>
  studio.post(`/bench/clock${path}`, { once: randomUUID(), ...values });

export const clockOf = async (studio: TestStudio) =>
  (await studio.api('GET', '/api/bench/clock')).json() as {
    clock: Record<string, any> | null;
    asked: Record<string, any>[];
  };

/** The minutes that stand on a garment, newest last. */
export const entriesOf = async (studio: TestStudio, garmentId: string): Promise<Record<string, any>[]> =>
  (await studio.api('GET', `/api/garments/${garmentId}/bench-entries`)).json().items;

/** Visible words of a page. */
export const wordsOf = (html: string): string =>
  html
    .replace(/<(head|script)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
