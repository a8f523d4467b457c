import { createHash, randomUUID } from 'node:crypto';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { carryIn, carryOut } from '../../src/app/commands/carry.js';
import { readConfig } from '../../src/app/config.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { photoBook } from '../../src/storage/books/fitting/photo-book.js';
import { openForWriting } from '../../src/storage/connection/data-source.js';
import { goesOut } from '../../src/storage/moving/export/export-form.js';
import { digestsOf, type TableDigest, tablesOf } from '../../src/storage/moving/portable-rows.js';
import { withSnapshot } from '../../src/storage/moving/snapshot.js';
import { acceptedCommission, invoiced } from '../rooms/papers/invoices/an-invoice.js';
import { bytesOf, furnishHouse } from '../rooms/quotes/a-commission.js';
import { freshPostgres, isPostgresLeftOut } from '../support/postgres.js';
import { StillClock } from '../support/still-clock.js';
import { openTestStudio } from '../support/studio.js';

/* Everything out as open files, and into an empty studio: every row that goes out, every paper to the byte. */

let root: string;
let rows: TableDigest[];
let pdf: Buffer;
let receipt: Buffer;
let photo: { readonly id: string };
// Every byte there is, so that none is lost on the way through text.
const PICTURE = Buffer.from(Array.from({ length: 512 }, (_, place) => (place * 7) % 256));
let xml = '';
let number = '';
let files: Record<string, Uint8Array>;
const clock = new StillClock();
const at = (name: string): string => join(root, name);
const config = (folder: string, more: Record<string, string> = {}) =>
  readConfig({ DATA_DIR: at(folder), ...more });
const out = (digests: readonly TableDigest[]) => digests.filter(({ table }) => goesOut({ tableName: table }));

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'bastings-carry-'));
  const studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  const made = await acceptedCommission(studio, [{ name: 'Hem', ownPrice: '24.00' }], {
    client: '=HYPERLINK("x") Haddlestone',
  });
  await studio.unit.write(studio.visit, async (writing) => {
    const payer = await clientBook.one(writing, made.clientId);
    await clientBook.correct(writing, made.clientId, { ...payer, country: 'IE', notes: 'two\n“lines”' });
    writing.says('Completed the client', `client/${made.clientId}`);
  });
  const invoice = await invoiced(studio, made.url, { what: 'final' });
  number = invoice.number;
  const payment = await studio.api('POST', '/api/payments', {
    clientId: made.clientId,
    on: '2026-03-02',
    amount: '10.00',
    how: 'coin',
  });
  expect(payment.status, payment.text).toBe(201);
  const paid = `/api/payments/${payment.json().id}/receipt`;
  expect((await studio.api('POST', paid, {})).status).toBe(201);
  receipt = await bytesOf(studio, `${paid}.pdf`);
  await studio.unit.write(studio.visit, async (writing) => {
    const words = {
      ...{ about: `client/${made.clientId}`, clientId: made.clientId, takenOn: '2026-02-01', words: 'back' },
      ...{ scope: 'workroom' as const, consentBy: 'C. H.', until: undefined, width: 4, height: 3 },
      addedBy: 'Odalys Fenwright',
    };
    photo = await photoBook.add(writing, words, { picture: PICTURE, small: PICTURE });
    writing.says('Added a photograph', words.about);
  });
  pdf = await bytesOf(studio, `/api/papers/${invoice.id}.pdf`);
  xml = (await studio.api('GET', `/api/papers/${invoice.id}.ubl.xml`)).text;
  await studio.closeInto((folder) => cpSync(folder, at('studio'), { recursive: true }));
  rows = await withSnapshot(config('studio').home, root, digestsOf);
  const said = await carryOut(config('studio'), 'all.zip', root, clock);
  expect(said[1]).toMatch(/^checked: \d+ rows of \d+ tables, each table counted and compared by hash$/);
  files = unzipSync(readFileSync(at('all.zip')));
}, 240_000);
afterAll(() => rmSync(root, { recursive: true, force: true }));

const text = (name: string): string => strFromU8(files[name]!);

describe('an export', () => {
  it('holds every table as lines and as CSV, and says in words and as a schema what they are', () => {
    const schema = JSON.parse(text('schema.json'));
    const tables = out(rows);
    for (const { table, rows: count, sha256 } of tables) {
      const lines = text(`rows/${table}.jsonl`);
      expect([table, createHash('sha256').update(lines).digest('hex')]).toEqual([table, sha256]);
      const records = parse(text(`tables/${table}.csv`), { bom: true, columns: true });
      expect([table, records.length]).toEqual([table, count]);
      for (const line of lines.split('\n').filter(Boolean))
        expect(Object.keys(JSON.parse(line)).toSorted()).toEqual(schema.$defs[table].required.toSorted());
    }
    expect(text('README.txt')).toContain('Quillmere Workroom: everything, as open files');
    const clients = parse(text('tables/client.csv'), { bom: true, columns: true }) as Record<
      string,
      string
    >[];
    // A spreadsheet works nothing out; what was typed stands in the lines as it was.
    expect(clients[0]).toMatchObject({ name: '\'=HYPERLINK("x") Haddlestone', notes: 'two\n“lines”' });
    expect(JSON.parse(text('rows/client.jsonl').split('\n')[0]!).name).toBe('=HYPERLINK("x") Haddlestone');
  });

  it('holds the papers byte for byte, invoices as data too, and no key that opens a door', () => {
    const name = number.replaceAll(/[^\p{L}\p{N}._-]+/gu, '-');
    expect(Buffer.from(files[`papers/${name}.pdf`]!).equals(pdf)).toBe(true);
    expect(Buffer.from(files[`pictures/${photo.id}.jpg`]!).equals(PICTURE)).toBe(true);
    const receipts = Object.keys(files).filter((file) => /^papers\/R-.+\.pdf$/.test(file));
    expect(receipts.map((file) => Buffer.from(files[file]!).equals(receipt))).toEqual([true]);
    expect(text(`papers/${name}.ubl.xml`)).toBe(xml);
    expect(text(`papers/${name}.cii.xml`)).toContain('CrossIndustryInvoice');
    for (const table of [
      'sign_in_session',
      'api_token',
      'paired_phone',
      'pairing_code',
      'calendar_key',
      'once',
    ])
      expect(files[`rows/${table}.jsonl`]).toBeUndefined();
    expect(text('tables/account.csv')).not.toContain('argon2');
  });

  it('leaves out no table that another one refers to', async () => {
    const source = await openForWriting({ kind: 'sqlite', file: at('empty.sqlite') });
    for (const table of tablesOf(source).filter(goesOut))
      for (const { referencedEntityMetadata } of table.foreignKeys)
        expect([table.tableName, goesOut(referencedEntityMetadata)]).toEqual([table.tableName, true]);
    await source.destroy();
  });
});

describe('bringing it in', () => {
  const kinds = isPostgresLeftOut ? ['sqlite'] : ['sqlite', 'postgres'];
  it.each(kinds)(
    'fills an empty place on %s with the same rows, and a filled one no more',
    async (kind) => {
      const postgres = kind === 'postgres' ? await freshPostgres() : undefined;
      const there = config(`new-${kind}`, postgres ? { DATABASE_URL: postgres.url } : {});
      // The program was started once and only set up.
      const source = await openForWriting(
        there.home.kind === 'sqlite' ? { kind: 'sqlite', file: at('set-up.sqlite') } : there.home,
      );
      await source.query(
        `INSERT INTO act (id, at, who_id, who_name, subject, sentence, undoable) VALUES ('a', '', '', '', '', '', false)`,
      );
      await source.destroy();
      const said = await carryIn(there, 'all.zip', root, clock);
      expect(said[0]).toMatch(/^brought in: \d+ rows of/);
      const arrived = await withSnapshot(there.home, root, digestsOf);
      expect(out(arrived)).toEqual(out(rows));
      expect(
        arrived.filter(({ table }) => !goesOut({ tableName: table })).every(({ rows: many }) => many === 0),
      ).toBe(true);
      await expect(carryIn(there, 'all.zip', root, clock)).rejects.toThrow(
        'There is a studio in that place already',
      );
      expect(out(await withSnapshot(there.home, root, digestsOf))).toEqual(out(rows));
      await postgres?.drop();
    },
    120_000,
  );

  it('puts a file that was only set up aside, and refuses what is no whole export; nothing is changed', async () => {
    const there = config('again');
    cpSync(at('set-up.sqlite'), at('again/bastings.sqlite'), { recursive: true });
    const before = readFileSync(there.home.kind === 'sqlite' ? there.home.file : '');
    const manifest = JSON.parse(text('manifest.json'));
    const lines = text('rows/client.jsonl');
    const spoilt: Record<string, Uint8Array | undefined> = {
      'letter.zip': Buffer.from('Dear Corvin'),
      'cut.zip': readFileSync(at('all.zip')).subarray(0, 20_000),
      'changed.zip': zipSync(
        { ...files, 'rows/client.jsonl': Buffer.from(lines.replace('two', 'TWO')) },
        { level: 0 },
      ),
      'other.zip': zipSync(
        { ...files, 'manifest.json': Buffer.from(JSON.stringify({ ...manifest, migrations: ['Later'] })) },
        { level: 0 },
      ),
      'torn.zip': zipSync({ 'manifest.json': files['manifest.json']! }),
    };
    for (const [name, bytes] of Object.entries(spoilt)) {
      writeFileSync(at(name), bytes!);
      await expect(carryIn(there, name, root, clock)).rejects.toThrow(
        /not an export|damaged|another release/,
      );
    }
    await expect(carryIn(there, 'nothing.zip', root, clock)).rejects.toThrow('There is no file');
    expect(readFileSync(at('again/bastings.sqlite')).equals(before)).toBe(true);
    await carryIn(there, 'all.zip', root, clock);
    expect(readdirSync(at('again')).toSorted()).toEqual([
      'bastings-replaced-2026-03-02T09-00-00Z.sqlite',
      'bastings.sqlite',
    ]);
  });

  it('writes over no file, and leaves none behind that is not whole', async () => {
    await expect(carryOut(config('studio'), 'all.zip', root, clock)).rejects.toThrow('already');
    await expect(carryOut(config(randomUUID()), 'none.zip', root, clock)).rejects.toThrow(
      'nothing to export yet',
    );
    expect(existsSync(at('none.zip'))).toBe(false);
  });
});
