import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestStudio } from '../../../support/studio.js';

/** A page's fields that travel on by themselves. */
export const fieldsOf = (html: string): Record<string, string> => {
  const plain = (text: string) =>
    text
      .replace(/&quot;/g, '"')
      .replace(/&#x27;/g, "'")
      .replace(/&lt;/g, '<')
      .replace(/&#x3D;/g, '=')
      .replace(/&amp;/g, '&');
  const fields: Record<string, string> = {};
  const form = html.slice(html.indexOf('name="carried"') - 400);
  for (const [, name, value] of form.matchAll(/<input type="hidden" name="([^"]+)" value="([^"]*)"/g))
    fields[name!] = plain(value!);
  for (const [, name, inside] of form.matchAll(/<select [^>]*name="([^"]+)"[^>]*>([\s\S]*?)<\/select>/g))
    fields[name!] = plain(/<option value="([^"]*)" selected/.exec(inside!)?.[1] ?? '');
  for (const [, name, value] of form.matchAll(/<input [^>]*name="(takenOn|takenBy)"[^>]* value="([^"]*)"/g))
    fields[name!] = plain(value!);
  return fields;
};

/** Sends a file as a browser does. */
export const upload = async (
  studio: TestStudio,
  bytes: string | Uint8Array,
  name = 'clients.csv',
  headed = true,
  url = '/clients/import/columns',
) => {
  const edge = `edge${randomUUID()}`;
  const part = (head: string, value: string | Uint8Array) =>
    Buffer.concat([
      Buffer.from(`--${edge}\r\ncontent-disposition: form-data; ${head}\r\n\r\n`),
      Buffer.from(value as string),
      Buffer.from('\r\n'),
    ]);
  const answer = await studio.app.inject({
    method: 'POST',
    url,
    headers: {
      cookie: studio.cookie,
      'sec-fetch-site': 'same-origin',
      'content-type': `multipart/form-data; boundary=${edge}`,
    },
    payload: Buffer.concat([
      ...(headed ? [part('name="headed"', 'yes')] : []),
      part(`name="file"; filename="${name}"`, bytes),
      part('name="pasted"', ''),
      Buffer.from(`--${edge}--\r\n`),
    ]),
  });
  return { status: answer.statusCode, text: answer.payload };
};

/** From a file to the preview, with the meanings that were guessed. */
export const toPreview = async (
  studio: TestStudio,
  bytes: string | Uint8Array,
  changes: Record<string, string> = {},
) => {
  const columns = await upload(studio, bytes);
  expect(columns.status, columns.text.slice(0, 300)).toBe(200);
  const preview = await studio.post('/clients/import/preview', { ...fieldsOf(columns.text), ...changes });
  return preview;
};

/** Presses “Add them” on a preview. */
export const add = (studio: TestStudio, preview: string, answers: Record<string, string> = {}) =>
  studio.post('/clients/import', { ...fieldsOf(preview), ...answers });
