import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestStudio } from '../../support/studio.js';

/** The form that opens a commission, filled: a jacket for somebody new, unless told otherwise. */
export const openingFields = (fields: Record<string, string> = {}): Record<string, string> => ({
  once: randomUUID(),
  client: 'Corvin Haddlestone',
  'confirm.client': 'yes',
  'garments.0.type': 'lounge-jacket',
  'garments.0.make': 'hand-where-it-shows',
  ...fields,
});

/** Opens a commission; answers its address. */
export const openCommission = async (
  studio: TestStudio,
  fields: Record<string, string> = {},
): Promise<string> => {
  studio.clock.forward(1);
  const answer = await studio.post('/commissions', openingFields(fields));
  expect(answer.status, answer.text.replace(/<[^>]*>/g, ' ').slice(0, 2000)).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};

/** The addresses of a commission's garments. */
export const garmentsOf = async (studio: TestStudio, commission: string): Promise<string[]> => {
  const answer = await studio.api('GET', `/api${commission}/garments`);
  return answer.json().items.map(({ id }: { id: string }) => `${commission}/garments/${id}`);
};
