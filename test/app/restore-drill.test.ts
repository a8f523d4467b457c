import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { restore } from '../../src/app/commands/keep-safe.js';
import { readConfig } from '../../src/app/config.js';
import { createApp } from '../../src/app/create-app.js';
import { Backups } from '../../src/storage/backup/backups.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { digestsOf, type TableDigest } from '../../src/storage/moving/portable-rows.js';
import { withSnapshot } from '../../src/storage/moving/snapshot.js';
import { acceptedCommission, invoiced } from '../rooms/papers/invoices/an-invoice.js';
import { furnishHouse, setRates } from '../rooms/quotes/a-commission.js';
import { StillClock } from '../support/still-clock.js';
import { openTestStudio } from '../support/studio.js';

/*
 * The drill: a studio with papers is backed up, plainly and sealed, and restored on another machine (another folder, an
 * app of its own). Every row, the bytes of every paper, a sum and a balance must be the same.
 */

const PASSPHRASE = 'beeswax thimble basting thread';
let root: string;
let [token, garment, client] = ['', '', ''];
let papers: string[] = [];
let before: Record<string, string>;
let rows: TableDigest[];

const at = (name: string): string => join(root, name);

/** What the studio answers at each address, as one hash each; figures are JSON, papers are bytes. */
const answersOf = async (app: NestFastifyApplication): Promise<Record<string, string>> => {
  const answers: Record<string, string> = {};
  for (const url of [
    `/api/garments/${garment}/cost-sheet`,
    `/api/clients/${client}/account`,
    '/api/papers',
    ...papers,
  ]) {
    const { statusCode, rawPayload } = await app.inject({
      method: 'GET',
      url,
      headers: { authorization: `Bearer ${token}` },
    });
    expect([url, statusCode]).toEqual([url, 200]);
    answers[url] = createHash('sha256').update(rawPayload).digest('hex');
  }
  return answers;
};
/** Signed-in browsers are not restored, so that a lost backup signs nobody in. */
const butSignIns = (digests: readonly TableDigest[]) =>
  digests.filter(({ table }) => table !== 'sign_in_session');

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'bastings-drill-'));
  const studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  await setRates(studio, '32.00');
  const made = await acceptedCommission(studio);
  await studio.unit.write(studio.visit, async (writing) => {
    const payer = await clientBook.one(writing, made.clientId);
    await clientBook.correct(writing, made.clientId, { ...payer, country: 'IE' });
    writing.says('Completed the client', `client/${made.clientId}`);
  });
  const invoice = await invoiced(studio, made.url, { what: 'final' });
  [token, garment, client] = [studio.token, made.garments[0]!, made.clientId];
  const { items } = (await studio.api('GET', '/api/papers')).json();
  papers = [
    `/api/papers/${invoice.id}.pdf`,
    `/api/papers/${invoice.id}.ubl.xml`,
    `/api/papers/${invoice.id}.cii.xml`,
  ];
  expect(items.length).toBeGreaterThan(1);
  before = await answersOf(studio.app);
  const home = (studio.app.get(Backups) as unknown as { home: { kind: 'sqlite'; file: string } }).home;
  rows = await withSnapshot(home, root, digestsOf);
  const seal = { passphrase: PASSPHRASE, folder: root, work: 10 };
  await new Backups(home, at('backups'), studio.clock).make();
  await new Backups(home, at('backups'), studio.clock, seal).make();
  await studio.close();
}, 180_000);
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe.each(['plain', 'sealed'])('a %s backup on another machine', (kind) => {
  it('gives the same rows, figures and bytes', async () => {
    mkdirSync(at(kind));
    cpSync(at('backups'), join(at(kind), 'backups'), { recursive: true });
    const config = readConfig({ DATA_DIR: at(kind), PORT: '0', TIME_ZONE: 'Europe/Dublin' });
    const made = await new Backups(config.home, config.backupDir, new StillClock()).list();
    const { name } = made.find(({ sealed }) => sealed === (kind === 'sealed'))!;
    await restore(config, name, at(kind), new StillClock(), async () => PASSPHRASE);
    expect(butSignIns(await withSnapshot(config.home, root, digestsOf))).toEqual(butSignIns(rows));
    const app = await createApp(config, new StillClock(Date.parse('2026-03-02T09:30:00.000Z')));
    await app.init();
    await app.getHttpAdapter().getInstance().ready();
    try {
      expect(await answersOf(app)).toEqual(before);
    } finally {
      await app.close();
    }
  }, 120_000);
});
