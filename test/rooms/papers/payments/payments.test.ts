import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aClient, issued, pressed, refused, wordsOf } from './papers-of.js';

let studio: TestStudio;
let clients = 0;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const someone = () => aClient(studio, `Corvin Haddlestone ${++clients}`);
const take = (client: string, fields: Record<string, string>) =>
  pressed(studio, `/papers/payments/new?client=${client}`, {
    on: '2026-03-01',
    how: 'bank transfer',
    amount: '10',
    ...fields,
  });
const pageOf = async (url: string): Promise<string> => {
  const answer = await studio.get(url);
  expect([url, answer.status, answer.status === 200 ? '' : answer.text]).toEqual([url, 200, '']);
  return wordsOf(answer.text);
};
const account = async (client: string) => {
  const { balance, owed, credit } = (await studio.api('GET', `/api/clients/${client}/account`)).json();
  return [balance, owed, credit];
};

describe('a payment', () => {
  it('goes to the paper due first, then the next, and what is over is held', async () => {
    const client = await someone();
    const second = await issued(studio, client, 'A-2', '50.00', { dueOn: '2026-03-20' });
    const first = await issued(studio, client, 'A-1', '100.00');
    const url = await take(client, { amount: '120' });
    expect(await account(client)).toEqual(['30.00', '30.00', '0.00']);
    const { wentTo } = (await studio.api('GET', url.replace('/papers', '/api'))).json();
    expect(wentTo.map((part: { paperId: string; amount: string }) => [part.paperId, part.amount])).toEqual([
      [first, '100.00'],
      [second, '20.00'],
    ]);
    expect(await pageOf(url)).not.toContain('Held for the client');
    const over = await take(client, { amount: '42.50' });
    expect(await account(client)).toEqual(['-12.50', '0.00', '12.50']);
    expect(await pageOf(over)).toMatch(/Held for the client[\s\S]{0,120}€12\.50/);
    expect(await pageOf(`/papers/accounts/${client}`)).toContain('€12.50');
  });

  it('goes by hand where the maker says so, never beyond what is open', async () => {
    const client = await someone();
    const one = await issued(studio, client, 'B-1', '100.00');
    const two = await issued(studio, client, 'B-2', '50.00');
    const url = `/papers/payments/new?client=${client}`;
    const fields = { on: '2026-03-01', how: 'coin', amount: '60', note: 'on the counter' };
    const text = await refused(studio, url, { ...fields, [`part.${two}`]: '50.01' });
    expect(text).toContain('Only 50.00 is open on B-2.');
    expect(text).toContain('on the counter');
    expect(
      await refused(studio, url, { ...fields, [`part.${one}`]: '20', [`part.${two}`]: '40.01' }),
    ).toContain('come to 60.01, and there is 60.00');
    await pressed(studio, url, { ...fields, [`part.${two}`]: '50' });
    expect(await account(client)).toEqual(['90.00', '100.00', '10.00']);
  });

  it.each([
    [{ amount: '' }, 'How much?'],
    [{ amount: '0' }, 'above nought'],
    [{ amount: '-5' }, 'less than nought'],
    [{ amount: '1.234' }, 'did you mean'],
    [{ amount: '9'.repeat(40) }, 'too large'],
    [{ on: '2999-01-01' }, 'still to come'],
    [{ on: '2026-02-30' }, 'Write the date'],
    [{ how: ' ' }, 'Say how it was paid'],
    [{ note: 'x'.repeat(401) }, 'At most 400 characters'],
    [{ commission: 'gone' }, 'not one of this client’s'],
    [{ 'part.gone': '1' }, 'There is no field'],
  ] as [Record<string, string>, string][])('refuses %j and keeps what was typed', async (wrong, sentence) => {
    const client = await someone();
    const fields = { on: '2026-03-01', how: 'bank transfer', amount: '10', note: '<b>kept</b>', ...wrong };
    const text = await refused(studio, `/papers/payments/new?client=${client}`, fields);
    expect(text).toContain(sentence);
    if (!wrong.note) expect(text).not.toContain('<b>');
    expect(await account(client)).toEqual(['0.00', '0.00', '0.00']);
  });

  it('pressed twice is one payment', async () => {
    const client = await someone();
    const once = randomUUID();
    const fields = { once, on: '2026-03-01', how: 'card', amount: '5' };
    const answers = await Promise.all(
      [1, 2, 3].map(() => studio.post(`/papers/payments/new?client=${client}`, fields)),
    );
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([303]));
    expect(await account(client)).toEqual(['-5.00', '0.00', '5.00']);
  });

  it('reversed is taken back by another entry; both stay, its papers are open again', async () => {
    const client = await someone();
    await issued(studio, client, 'C-1', '80.00');
    const url = await take(client, { amount: '80' });
    expect(await refused(studio, `${url}/reversal`, { reason: '', on: '2026-03-01' })).toContain(
      'Give the reason',
    );
    await pressed(studio, `${url}/reversal`, { reason: 'returned by the bank', on: '2026-03-02' });
    expect(await account(client)).toEqual(['80.00', '80.00', '0.00']);
    await refused(studio, `${url}/reversal`, { reason: 'again', on: '2026-03-02' }, 409);
    const text = await pageOf(`/papers/accounts/${client}`);
    expect(text).toContain('Payment reversed');
    const history = await studio.get(
      `/history?about=${encodeURIComponent(url.replace('/papers/payments', 'payment'))}`,
    );
    expect(wordsOf(history.text)).toContain('returned by the bank');
    expect(wordsOf((await studio.get(url)).text)).toContain('Reversed by');
  });

  it('can be put to other papers; its receipt stays as it was written', async () => {
    const client = await someone();
    const one = await issued(studio, client, 'D-1', '30.00');
    const two = await issued(studio, client, 'D-2', '30.00', { dueOn: '2026-04-01' });
    const url = await take(client, { amount: '30' });
    const form = await studio.get(`${url}/move`);
    expect(form.text).toContain(`name="part.${one}"`);
    expect(await refused(studio, `${url}/move`, { [`part.${one}`]: '20', [`part.${two}`]: '20' })).toContain(
      'come to 40.00',
    );
    await pressed(studio, `${url}/move`, { [`part.${two}`]: '25' });
    expect(await account(client)).toEqual(['30.00', '35.00', '5.00']);
    const { wentTo } = (await studio.api('GET', url.replace('/papers', '/api'))).json();
    expect(wentTo.map(({ number, amount }: { number: string; amount: string }) => [number, amount])).toEqual([
      ['D-2', '25.00'],
    ]);
  });
});

describe('money given back', () => {
  it('is taken from what is held, and never makes a debt', async () => {
    const client = await someone();
    const invoice = await issued(studio, client, 'E-1', '100.00');
    await take(client, { amount: '110' });
    await issued(studio, client, 'E-C1', '40.00', { kind: 'credit-note', cites: [invoice] });
    expect(await account(client)).toEqual(['-50.00', '0.00', '50.00']);
    const url = `/papers/payments/refund?client=${client}`;
    const fields = { on: '2026-03-02', how: 'bank transfer', note: '' };
    expect(await refused(studio, url, { ...fields, amount: '50.01' })).toContain('Only 50.00 is held');
    expect((await studio.get(url)).text).toContain('value="50.00"');
    const refund = await pressed(studio, url, { ...fields, amount: '45' });
    expect(await account(client)).toEqual(['-5.00', '0.00', '5.00']);
    expect(await pageOf(refund)).toContain('What it was taken from');
    await pressed(studio, `${refund}/reversal`, { reason: 'the account was wrong', on: '2026-03-02' });
    expect(await account(client)).toEqual(['-50.00', '0.00', '50.00']);
  });
});

describe('the JSON of payments', () => {
  it('takes, shows, pages by key, moves and reverses', async () => {
    const client = await someone();
    const paper = await issued(studio, client, 'F-1', '10.00');
    const made = [];
    for (const amount of ['1.00', '2.00', 3]) {
      const sent = { clientId: client, on: '2026-03-01', amount, how: 'card', parts: [] };
      const answer = await studio.api('POST', '/api/payments', sent);
      expect([answer.status, answer.text]).toEqual([201, expect.any(String)]);
      made.push(answer.json().id);
    }
    const first = (await studio.api('GET', `/api/payments?clientId=${client}&limit=2`)).json();
    expect(first.items.map(({ id }: { id: string }) => id)).toEqual([made[2], made[1]]);
    const rest = await studio.api('GET', `/api/payments?clientId=${client}&limit=2&after=${first.next}`);
    expect([rest.json().items.map(({ id }: { id: string }) => id), rest.json().next]).toEqual([
      [made[0]],
      null,
    ]);
    const moved = await studio.api('POST', `/api/payments/${made[2]}/allocations`, {
      parts: [{ paperId: paper, amount: '2.50' }],
    });
    expect([moved.status, moved.json().wentTo[0].amount]).toEqual([200, '2.50']);
    expect(await account(client)).toEqual(['4.00', '7.50', '3.50']);
    const reversed = await studio.api('POST', `/api/payments/${made[2]}/reversal`, { reason: 'a slip' });
    expect([reversed.status, reversed.json().of]).toEqual([201, made[2]]);
    const again = await studio.api('POST', `/api/payments/${made[2]}/reversal`, { reason: 'a slip' });
    expect([again.status, again.json().code]).toEqual([409, 'already-reversed']);
    expect(await account(client)).toEqual(['7.00', '10.00', '3.00']);
  });

  it('refuses by field, with a pointer', async () => {
    const client = await someone();
    const paper = await issued(studio, client, 'G-1', '10.00');
    const sent = {
      clientId: client,
      amount: '50.00',
      how: 'card',
      parts: [{ paperId: paper, amount: '10.01' }],
    };
    const answer = await studio.api('POST', '/api/payments', sent);
    expect([answer.status, answer.json().errors[0].pointer]).toEqual([422, '/parts/0/amount']);
    const refund = await studio.api('POST', '/api/payments', {
      kind: 'refund',
      clientId: client,
      amount: '1',
      how: 'x',
    });
    expect([refund.status, refund.json().errors[0].detail]).toEqual([
      422,
      expect.stringContaining('Nothing is held'),
    ]);
    const nobody = await studio.api('POST', '/api/payments', { clientId: 'nobody', amount: '1', how: 'x' });
    expect(nobody.status).toBe(404);
    expect((await studio.api('GET', '/api/payments/none')).status).toBe(404);
  });
});

describe('who owes what', () => {
  it('is told by age, with every client a link', async () => {
    const client = await aClient(studio, 'Maud Ellery-Pike');
    await issued(studio, client, 'H-1', '11.00', { dueOn: '2026-03-30' });
    await issued(studio, client, 'H-2', '22.00', { dueOn: '2026-02-20' });
    await issued(studio, client, 'H-3', '44.00', { dueOn: '2025-06-01' });
    const text = await pageOf('/papers/owed');
    expect(text).toMatch(/Maud Ellery-Pike €11\.00 €22\.00 €0\.00 €0\.00 €44\.00 €77\.00/);
    const owed = (await studio.api('GET', '/api/papers/owed')).json();
    const row = owed.items.find(
      ({ clientName }: { clientName: string }) => clientName === 'Maud Ellery-Pike',
    );
    expect(row.ages.map(({ amount }: { amount: string }) => amount)).toEqual([
      '11.00',
      '22.00',
      '0.00',
      '0.00',
      '44.00',
    ]);
    expect((await studio.get('/papers/owed')).text).toContain(`href="/papers/accounts/${client}"`);
  });
});
