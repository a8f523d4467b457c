import { channel } from 'node:diagnostics_channel';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import puppeteer from 'puppeteer';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { findBrowser } from '../../src/printing/browser/find-browser.js';
import { acceptedCommission, invoiced, layReady } from '../rooms/papers/invoices/an-invoice.js';
import { bytesOf, furnishHouse, setRates } from '../rooms/quotes/a-commission.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';
import { readPdf } from './papers/read-pdf.js';

/*
 * A quote, invoices, a message and an export, with addresses to fetch in every word, while the network is watched from both
 * sides: what this process connects to, and what the printing browser itself writes down of its network.
 */

type Happened = { readonly what: string; readonly where: string };

const folder = mkdtempSync(join(tmpdir(), 'bastings-watched-'));
const wrapped = join(folder, 'browser.sh');
const before = process.env.PUPPETEER_EXECUTABLE_PATH;
const fetched: string[] = [];
const asked: string[] = [];
let elsewhere: Server;
let address: string;
let text: string;

/** A name asked of a resolver, a connection tried, or bytes sent: each is more than the browser may do. */
const WENT_OUT =
  /^(TCP_CONNECT_ATTEMPT|(SOCKET|SSL_SOCKET|UDP)_BYTES_SENT|HOST_RESOLVER_(DNS|SYSTEM|MDNS)_TASK|HTTP_TRANSACTION_SEND_REQUEST)$/;

/** What browsers that were started through the wrapper wrote down, and which of it went out. */
const written = (): { events: number; wentOut: Happened[] } => {
  const files = readdirSync(folder).filter((name) => name.startsWith('net-'));
  const all = files.flatMap((name) => {
    const { constants, events } = JSON.parse(readFileSync(join(folder, name), 'utf8'));
    const names = new Map(Object.entries(constants.logEventTypes).map(([what, type]) => [type, what]));
    for (const wanted of ['TCP_CONNECT_ATTEMPT', 'SOCKET_BYTES_SENT', 'UDP_BYTES_SENT'])
      expect([...names.values()]).toContain(wanted);
    return (events as any[]).map(({ type, params }) => ({
      what: names.get(type) ?? '',
      where: JSON.stringify(params ?? {}).slice(0, 200),
    }));
  });
  for (const name of files) rmSync(join(folder, name));
  return { events: all.length, wentOut: all.filter(({ what }) => WENT_OUT.test(what)) };
};

const connects = (message: unknown): void => {
  const { socket } = message as { socket: Socket };
  socket.once('lookup', (_error, _address, _family, host: string) => asked.push(host));
  socket.once('connect', () => asked.push(String(socket.remoteAddress)));
};
const datagrams = (): void => {
  asked.push('a datagram');
};

const tellStory = async (studio: TestStudio): Promise<void> => {
  await furnishHouse(studio, { identity: { country: 'IE', email: 'bench@quillmere.example' } });
  await setRates(studio, '30.00');
  const bait = `<img src="${address}/a.png"><img src="https://bait.invalid/b"><iframe src="file:///etc/passwd"></iframe>`;
  const at = await acceptedCommission(studio, [{ name: `Coat ${bait}`, shown: bait }]);
  const client = `/api/clients/${at.clientId}`;
  const { version, code: _code, id: _id, ...said } = (await studio.api('GET', client)).json();
  await studio.api('PUT', client, { ...said, country: 'IE' }, { 'if-match': `"${version}"` });
  const deposit = await invoiced(studio, at.url, { what: 'deposit' });
  const draft = await layReady(studio, at.url, { what: 'final' });
  const drafted = `${at.url}/invoices/drafts/${draft.id}`;
  const kept = await studio.api('PUT', `/api${drafted}`, { note: bait });
  expect(kept.status, kept.text).toBe(200);
  const pdf = await readPdf(await bytesOf(studio, `${drafted}/preview.pdf`));
  text = pdf.pages.join('').replace(/\s+/g, '');
  for (const url of [`/papers/${deposit.id}.eml`, `/clients/${at.clientId}/export.csv`, at.url, '/papers'])
    expect([url, (await studio.get(url)).status]).toEqual([url, 200]);
  expect((await studio.api('POST', '/api/house/export')).status).toBe(202);
  const isWritten = async () =>
    expect((await studio.api('GET', '/api/house/export')).json().written?.name).toMatch(/\.zip$/);
  await vi.waitFor(isWritten, { timeout: 30_000 });
};

beforeAll(async () => {
  const browser = await findBrowser();
  const run = `exec "${browser}" "$@" --log-net-log="${folder}/net-$$.json" --net-log-capture-mode=Everything`;
  writeFileSync(wrapped, `#!/bin/sh\n${run}\n`, { mode: 0o700 });
  elsewhere = createServer((request, reply) => {
    fetched.push(request.url ?? '');
    reply.end('fetched');
  });
  await new Promise<void>((ready) => elsewhere.listen(0, '127.0.0.1', ready));
  address = `http://127.0.0.1:${(elsewhere.address() as AddressInfo).port}`;
  process.env.PUPPETEER_EXECUTABLE_PATH = wrapped;
  channel('net.client.socket').subscribe(connects);
  channel('udp.socket').subscribe(datagrams);
  const studio = await openTestStudio();
  await tellStory(studio).finally(() => studio.close());
}, 120_000);

afterAll(async () => {
  channel('net.client.socket').unsubscribe(connects);
  channel('udp.socket').unsubscribe(datagrams);
  if (before === undefined) delete process.env.PUPPETEER_EXECUTABLE_PATH;
  else process.env.PUPPETEER_EXECUTABLE_PATH = before;
  await new Promise((closed) => elsewhere.close(closed));
  rmSync(folder, { recursive: true, force: true });
});

describe('papers, a message and an export full of addresses', () => {
  it('print the addresses as words, and nothing of what stands there', () => {
    expect(text).toContain(`<imgsrc="${address}/a.png">`);
    expect(text).toContain('file:///etc/passwd');
    expect(text).not.toMatch(/root:x:|fetched/);
    expect(fetched).toEqual([]);
  });

  it('make this process connect to nothing', () => expect(asked).toEqual([]));

  it('make the browser try no connection, ask for no name, send no byte', () => {
    const { events, wentOut } = written();
    expect(events).toBeGreaterThan(10);
    expect(wentOut).toEqual([]);
  });

  it('would be seen to do so', async () => {
    const args = ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'];
    if (process.getuid?.() === 0) args.push('--no-sandbox');
    const browser = await puppeteer.launch({ executablePath: wrapped, pipe: true, args });
    const page = await browser.newPage();
    await page.goto(`${address}/control`);
    await browser.close();
    expect(fetched).toContain('/control');
    const { wentOut } = written();
    expect(wentOut.map(({ what }) => what)).toEqual(expect.arrayContaining(['TCP_CONNECT_ATTEMPT']));
    await fetch(`${address}/of-our-own`);
    expect(asked).toContain('127.0.0.1');
  }, 60_000);
});
