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

/** Opens a commission of a jacket; answers the job sheet's address. */
export const aJacket = async (studio: TestStudio, fields: Record<string, string> = {}): Promise<string> =>
  (await garmentsOf(studio, await openCommission(studio, fields)))[0]!;

type Line = { id: string; name: string; place: number };
export const planOf = async (studio: TestStudio, url: string): Promise<(Line & Record<string, unknown>)[]> =>
  (await studio.api('GET', `/api/garments/${url.split('/').at(-1)}`)).json().plan;

/** What the page's plan form holds for one operation. */
export const held = (text: string, id: string): Record<string, string> => {
  const of = (name: string): string =>
    new RegExp(`name="op\\.${id}\\.${name}"[^>]* value="([^"]*)"`).exec(text)?.[1] ?? '';
  return { quantity: of('quantity'), minutes: of('minutes'), was: of('was') };
};

/** The fields of a plan's form with one operation typed anew. */
export const typedInto = async (
  studio: TestStudio,
  url: string,
  id: string,
  typed: Record<string, string>,
  text = '',
): Promise<Record<string, string>> => {
  const { was } = held(text || (await studio.get(url)).text, id);
  return {
    once: randomUUID(),
    [`op.${id}.was`]: was!,
    ...Object.fromEntries(Object.entries(typed).map(([name, value]) => [`op.${id}.${name}`, value])),
  };
};
