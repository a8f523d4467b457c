import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from '../architecture/tree.js';

// Words that stand nowhere else: whatever of them is found in the lines was told.
const NAME = 'Peregrine Ostlethwaite';
const PASSPHRASE = 'wimple gusset marlin 4471';
const CLIENT = 'Quillon\n{"level":60,"msg":"forged"}';
const SHUT = '0190a000-0000-7000-8000-00000000beef';
const RARE = /Peregrine|0000beef|Ostlethwaite|wimple|gusset|Quillon|forged|DE75512108001245126199/;

const folder = mkdtempSync(join(tmpdir(), 'bastings-log-'));
let server: ChildProcess;
let told = '';
let address = '';
let cookie = '';
let token = '';

const began = async (): Promise<void> => {
  const { npm_lifecycle_event: _npm, ...surroundings } = process.env;
  server = spawn(process.execPath, ['dist/gathered/main.cjs'], {
    cwd: root,
    env: { ...surroundings, DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'info', DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  await new Promise<void>((resolve, reject) => {
    const hear = (piece: Buffer) => {
      told += piece;
      if (/setup code: \S+ .*\n/.test(told)) resolve();
    };
    server.stdout?.on('data', hear);
    server.stderr?.on('data', hear);
    server.once('exit', (code) => reject(new Error(`It ended with ${code}:\n${told}`)));
  });
  address = /address: (\S+)/.exec(told)?.[1] ?? '';
};

const form = (path: string, fields: Record<string, string>) =>
  fetch(`${address}${path}`, {
    method: 'POST',
    redirect: 'manual',
    headers: { 'sec-fetch-site': 'same-origin', ...(cookie ? { cookie } : {}) },
    body: new URLSearchParams(fields),
  });

const cookieOf = (answer: Response): string => answer.headers.getSetCookie()[0]?.split(';')[0] ?? '';

type Line = { level: number; time: number; name: string; msg: string };

/** The lines of the log: what follows the words in which a start says where it is. */
const lines = (): string[] =>
  told
    .split('\n')
    .filter((line) => line !== '' && !/^(data|backups|listens on|time zone|address|setup code): /.test(line));

beforeAll(async () => {
  await began();
  const code = /setup code: (\S+)/.exec(told)?.[1] ?? '';
  await form('/first-start', { code: 'WRONG-CODES', name: NAME, passphrase: PASSPHRASE });
  const opened = await form('/first-start', { code, name: NAME, passphrase: PASSPHRASE });
  cookie = cookieOf(opened);
  await form('/sign-in', { name: NAME, passphrase: `${PASSPHRASE} wrong` });
  // Typed in the wrong field, as people do.
  await form('/sign-in', { name: PASSPHRASE, passphrase: NAME });
  // Signing in anew ends the sign-in before it.
  const again = await form('/sign-in', { name: NAME, passphrase: PASSPHRASE });
  cookie = cookieOf(again);
  const client = await form('/clients', {
    once: crypto.randomUUID(),
    name: CLIENT,
    notes: 'DE75512108001245126199',
  });
  expect(client.headers.get('location')).toMatch(/^\/clients\/[\da-f-]{36}/);
  await fetch(`${address}/find?q=Ostlethwaite`, { headers: { cookie } });
  await fetch(`${address}/clients/${encodeURIComponent(CLIENT)}`, { headers: { cookie } });
  token = 'a-token-that-opens-nothing-Quillon';
  await fetch(`${address}/api/clients`, { headers: { authorization: `Bearer ${token}` } });
  await form('/nowhere/Quillon', { name: CLIENT });
  const maker = { name: 'Peregrine Maker', passphrase: `${PASSPHRASE} as well` };
  const added = await form('/house/people', { once: crypto.randomUUID(), role: 'maker', ...maker });
  expect(added.headers.get('location')).toMatch(/^\/house\/people\//);
  const entered = await form('/sign-in', maker);
  const makers = cookieOf(entered);
  const shut = await fetch(`${address}/clients/${SHUT}?q=Quillon`, { headers: { cookie: makers } });
  expect(shut.status).toBe(403);
}, 60_000);

afterAll(async () => {
  if (server.exitCode !== null) return;
  const gone = new Promise((resolve) => server.once('exit', resolve));
  server.kill('SIGTERM');
  await gone;
  rmSync(folder, { recursive: true, force: true });
});

describe('the lines a server tells whoever runs it, at the most talkative', () => {
  it('are one JSON object each, with when, how grave and what', () => {
    expect(lines().length).toBeGreaterThanOrEqual(3);
    for (const line of lines()) {
      const said = JSON.parse(line) as Line;
      expect(said.name).toBe('bastings');
      expect(said.level).toBeGreaterThan(0);
      expect(new Date(said.time).toISOString()).toMatch(/^20\d\d-/);
    }
  });

  it('tell of sign-ins, right and wrong, from where and by which account', () => {
    const said = lines().map((line) => JSON.parse(line));
    const refused = said.filter(({ msg }) => msg === 'a sign-in was refused');
    expect(refused).toHaveLength(2);
    expect(refused[0]).toMatchObject({
      address: '127.0.0.1',
      account: expect.stringMatching(/^[\da-f-]{36}$/),
    });
    expect(refused[1]).not.toHaveProperty('account');
    expect(said.filter(({ msg }) => msg === 'signed in').length).toBeGreaterThanOrEqual(1);
  });

  it('tell who went where they may not: the account and the route, not what stood in its places', () => {
    const went = lines()
      .map((line) => JSON.parse(line))
      .filter(({ msg }) => msg === 'somebody went where they may not');
    expect(went).toHaveLength(1);
    expect(went[0]).toMatchObject({
      account: expect.stringMatching(/^[\da-f-]{36}$/),
      method: 'GET',
      route: '/clients/:id',
    });
  });

  it('tell no name, passphrase, cookie, token or anything typed', () => {
    const all = lines().join('\n');
    expect(RARE.exec(all)).toBeNull();
    for (const secret of [cookie.split('=')[1] ?? '', token, PASSPHRASE]) {
      expect(secret.length).toBeGreaterThan(8);
      expect(all).not.toContain(secret);
    }
  });
});
