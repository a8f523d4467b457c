import { channel } from 'node:diagnostics_channel';
import { connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPool } from '../bench/fuzz/pool.mjs';
import { openTestStudio, type TestStudio } from '../support/studio.js';

/* Every page that the owner can reach by links, walked once: who asks the network for what, and where a client's name shows. */

const RARE = 'Zephyrine Quockerwodger';
const OWN = /^(127\.0\.0\.1|::1|localhost)$/;
const MOST = 150;

type Seen = { url: string; title: string; links: string[] };

let studio: TestStudio;
const asked: string[] = [];
const pages: Seen[] = [];
const watched = channel('net.client.socket');
const note = (message: unknown): void => {
  const { socket } = message as { socket: Socket };
  socket.once('lookup', (_error, _address, _family, host: string) => asked.push(host));
  socket.once('connect', () => socket.remoteAddress && asked.push(socket.remoteAddress));
};

/** A kind of page by its address: ids and dates are places. */
const kindOf = (url: string): string =>
  (url.split('?')[0] ?? '').replaceAll(/[\da-f]{8}-[\da-f-]{27}|\d{4}(-\d\d)*/g, ':');

const walk = async (): Promise<void> => {
  const pool = openPool();
  const been = new Set<string>();
  for (const start of [
    '/',
    '/clients',
    '/commissions',
    '/papers',
    '/house',
    '/rates',
    '/cloth-room',
    '/lessons',
  ])
    pool.links.add(start);
  for (const url of pool.links) {
    if (been.size >= MOST) break;
    if (been.has(kindOf(url)) || /\.(pdf|csv|ics)$/.test(kindOf(url))) continue;
    been.add(kindOf(url));
    const answer = await studio.get(encodeURI(decodeURI(url)));
    const type = String(answer.headers['content-type'] ?? '');
    if (answer.status !== 200 || !type.includes('html')) continue;
    const before = new Set(pool.links);
    pool.look(type, answer.text, url);
    const title = /<title>([^<]*)<\/title>/.exec(answer.text)?.[1] ?? '';
    pages.push({ url, title, links: [...pool.links].filter((link) => !before.has(link)) });
  }
};

beforeAll(async () => {
  watched.subscribe(note);
  studio = await openTestStudio();
  const client = (
    await studio.api('POST', '/api/clients', { name: RARE, email: 'zephyrine@quockerwodger.example' })
  ).json();
  await studio.api('POST', '/api/commissions', {
    client: { id: client.id },
    title: `Winter suit of ${RARE}`,
    garments: [{ typeId: 'lounge-jacket', name: 'Jacket', make: 'all-hand' }],
  });
  await studio.get(`/find?q=${RARE.split(' ')[0]}`);
  await walk();
}, 120_000);
afterAll(async () => {
  watched.unsubscribe(note);
  await studio.close();
});

it('the walk comes by most kinds of page, and by the client', async () => {
  expect(pages.length).toBeGreaterThan(60);
  expect(pages.some(({ url }) => url.startsWith('/clients/'))).toBe(true);
  expect((await studio.get('/clients')).text).toContain(RARE);
});

describe('the network', () => {
  it('is asked for nothing but this computer itself', () =>
    expect(asked.filter((host) => !OWN.test(host))).toEqual([]));

  it('would be seen to be asked', async () => {
    const port = Number(new URL(await studio.listen()).port);
    const before = asked.length;
    await new Promise<void>((resolve) => {
      const socket = connect(port, 'localhost', () => socket.end(resolve));
    });
    expect(asked.length).toBeGreaterThan(before);
  });
});

describe('the name of a client', () => {
  const [first, last] = RARE.split(' ') as [string, string];
  const names = new RegExp(`${first}|${last}`, 'i');

  it('stands in the title of no page', () =>
    expect(pages.filter(({ title }) => names.test(title))).toEqual([]));

  it('stands in no address that a page leads to', () =>
    expect(pages.flatMap(({ links }) => links.filter((link) => names.test(link)))).toEqual([]));
});
