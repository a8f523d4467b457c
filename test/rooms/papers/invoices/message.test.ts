import PostalMime from 'postal-mime';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { furnishHouse, setRates } from '../../quotes/a-commission.js';
import { acceptedCommission, issueDraft, layReady } from './an-invoice.js';

/* A message needs an address to come from: the paper's page says so before the link leads nowhere. */

let studio: TestStudio;
let paper: string;
const furnish = (email: string) => furnishHouse(studio, { identity: { country: 'IE', email } });
beforeAll(async () => {
  studio = await openTestStudio();
  await furnish('');
  await setRates(studio, '30.00');
  const at = await acceptedCommission(studio);
  const client = `/api/clients/${at.clientId}`;
  const { version, code: _code, id: _id, ...said } = (await studio.api('GET', client)).json();
  const corrected = await studio.api(
    'PUT',
    client,
    { ...said, country: 'IE' },
    { 'if-match': `"${version}"` },
  );
  expect(corrected.status, corrected.text).toBe(200);
  paper = `/papers/${(await issueDraft(studio, at.url, await layReady(studio, at.url, { what: 'deposit' }))).id}`;
}, 120_000);
afterAll(() => studio.close());

it('asks for the address of the house where there is none, and writes from it once there is', async () => {
  const before = (await studio.get(paper)).text;
  expect(before).toContain('/house/identity#field-email');
  expect(before).not.toContain(`${paper}.eml`);
  await furnish('bench@quillmere.example');
  expect((await studio.get(paper)).text).toContain(`${paper}.eml`);
  const message = await studio.get(`${paper}.eml`);
  expect(message.status).toBe(200);
  expect((await PostalMime.parse(message.text)).from?.address).toBe('bench@quillmere.example');
});
