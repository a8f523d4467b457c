import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the day sheet', () => {
  it('explains itself while it is empty, and offers the one next step', async () => {
    const empty = await studio.get('/');
    expect(empty.status).toBe(200);
    expect(empty.text).toContain('Add the first client');
    await studio.post('/clients', { once: randomUUID(), name: 'Corvin Haddlestone' });
    expect((await studio.get('/')).text).toContain('Open the first commission');
  });

  it('lists garments in the order they should leave, with the days that are left', async () => {
    const client = (await studio.api('GET', '/api/clients?q=corvin')).json().items[0];
    const made = await studio.api('POST', '/api/commissions', {
      clientId: client.id,
      garments: [
        { typeId: 'waistcoat', dueOn: '2026-05-01' },
        { typeId: 'lounge-jacket', dueOn: '2026-03-12' },
      ],
    });
    expect(made.status).toBe(201);
    const { text } = await studio.get('/');
    expect(text.indexOf('in 10 days')).toBeGreaterThan(0);
    expect(text.indexOf('12 March 2026')).toBeLessThan(text.indexOf('1 May 2026'));
  });
});
