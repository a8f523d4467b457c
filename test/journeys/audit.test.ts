import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type LoadedDemo, loadDemo } from '../../src/app/demo/load-demo.js';
import { loadQuotes } from '../../src/app/demo/load-quotes.js';
import { garmentBook } from '../../src/storage/books/garment-book.js';
import { quoteBook } from '../../src/storage/books/papers/quote-book.js';
import { auditInEverySight, auditOf, look } from '../support/audit.js';
import { Maker } from '../support/maker.js';
import { openEmptyStudio, type TestStudio } from '../support/studio.js';
import { smallTargets } from '../support/targets.js';

/*
 * Every page of the demonstration studio, full and empty, at a desk and on a phone, light and dark: the automated audit
 * finds nothing, nothing is wider than the page down to 320 px, every control is tall enough for a thimble, nothing is
 * asked of another server, nothing complains. What no program can see is in walked-by-hand.md.
 */

let studio: TestStudio;
let demo: LoadedDemo;
let maker: Maker;
let pages: string[];

beforeAll(async () => {
  studio = await openEmptyStudio();
  demo = await loadDemo(studio.unit, studio.visit, studio.clock, 'Europe/Dublin');
  expect(await loadQuotes(studio.app, studio.visit, 'Europe/Dublin', demo)).toBeUndefined();
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
  pages = await everyPage();
}, 180_000);

afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

/** Worked on for three hours and closed; nothing was written down of its cloth. */
const closedGarment = async (id: string): Promise<string> => {
  const plan = (await studio.api('GET', `/api/garments/${id}/plan`)).json().items;
  const entry = { operation: plan[0].id, minutes: 180, on: '2026-03-01', evenIfOdd: true };
  const worked = await studio.api('POST', `/api/garments/${id}/bench-entries`, entry);
  expect(worked.status, worked.text).toBe(201);
  const closing = await studio.api('POST', `/api/garments/${id}/reckoning`, { price: '650.00' });
  expect(closing.status, closing.text).toBe(201);
  return id;
};

const everyPage = async (): Promise<string[]> => {
  const client = demo.clients.get('corvin')!;
  const child = demo.clients.get('wren')!;
  const commission = demo.commissions.get('three-piece')!;
  const garments = await garmentBook.ofCommission(studio.read, commission);
  const quotes = (await quoteBook.find(studio.read)).items.map(({ id }) => id);
  const garment = `/commissions/${commission}/garments/${garments[0]!.id}`;
  const closed = await closedGarment(garments.at(-1)!.id);
  return [
    '/',
    '/clients',
    '/clients?q=haddle',
    '/clients?q=nobody-of-that-name',
    '/clients/new',
    `/clients/${client}`,
    `/clients/${client}/correct`,
    `/clients/${client}/measurements/new`,
    `/clients/${child}`,
    `/clients/${child}/held`,
    `/clients/${child}/erasure`,
    '/clients/import',
    '/commissions',
    '/commissions/new',
    `/commissions/${commission}`,
    garment,
    `${garment}/budget?amount=1500`,
    `${garment}/budget?amount=a+lot`,
    `/commissions/${commission}/quotes`,
    '/papers',
    '/papers/batch',
    '/bench',
    '/cloth-room',
    ...quotes.slice(0, 2).map((id) => `/papers/${id}`),
    '/lessons',
    '/lessons/garment-types/lounge-jacket',
    '/lessons/proof',
    '/lessons/import',
    '/lessons/totals',
    '/bench/promises',
    '/rates/year',
    `${garment}/landing`,
    `${garment}/reckoning`,
    `/commissions/${commission}/garments/${closed}/reckoning`,
    `/commissions/${commission}/reckoning`,
    '/rates',
    '/rates/price-list',
    '/house',
    '/house/backup',
    '/house/keeping',
    '/house/export',
    '/help',
    '/help/first-evening',
    '/help/the-house',
    '/history',
    '/find?q=tweed',
  ];
};

const audit = async (path: string): Promise<string[]> => {
  const found: string[] = [];
  const status = await maker.open(path);
  if (status !== 200) found.push(`${path} answered ${status}`);
  found.push(...(await auditInEverySight(maker.page, path)));
  found.push(
    ...(await smallTargets(maker.page, path)).map((one) => `${path}: too low for a thimble: ${one}`),
  );
  await look(maker.page, 320, 'light');
  const wide = Number(
    await maker.page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth'),
  );
  if (wide > 0) found.push(`${path} at 320: ${wide} px too wide`);
  return found;
};

describe('every page of the demonstration studio', () => {
  it('passes the automated audit, fits its width, and asks nobody else', async () => {
    const found: string[] = [];
    for (const path of pages) found.push(...(await audit(path)));
    expect(found).toEqual([]);
    expect(maker.strangers).toEqual([]);
    expect(maker.complaints).toEqual([]);
  }, 600_000);

  it('passes with errors shown', async () => {
    const found: string[] = [];
    for (const [path, button] of [
      ['/clients/new', 'Keep'],
      ['/commissions/new', 'Open the commission'],
    ] as const) {
      await maker.look(1280, false);
      await maker.open(path);
      await maker.press(button);
      expect(await maker.page.title()).toMatch(/^Error: /);
      const { broken } = await auditOf(maker.page);
      found.push(...broken.map((one) => `${path} with errors: ${one}`));
    }
    expect(found).toEqual([]);
  }, 120_000);
});

describe('a studio that begins', () => {
  let fresh: TestStudio;
  let beginner: Maker;
  beforeAll(async () => {
    fresh = await openEmptyStudio();
    beginner = await Maker.sitDown(await fresh.listen(), fresh.cookie);
  }, 60_000);
  afterAll(async () => {
    await beginner?.leave();
    await fresh?.close();
  });

  it('passes from its first question to rooms in which nothing lies yet', async () => {
    const found: string[] = [];
    const stands = async (title: RegExp): Promise<void> => {
      expect(await beginner.page.title()).toMatch(title);
      found.push(...(await auditInEverySight(beginner.page, await beginner.page.title())));
      await beginner.look(1280, false);
    };
    await beginner.open('/');
    await stands(/^The house/);
    await beginner.press('Go on to the hour');
    await stands(/^Error: The house/);
    await beginner.write('name', 'Quillmere Workroom');
    await beginner.choose('currency', 'EUR');
    await beginner.press('Go on to the hour');
    await stands(/^The hour/);
    for (const [field, value] of Object.entries({
      pay: '22000',
      weeks: '46',
      hoursAWeek: '34',
      productiveShare: '62',
    }))
      await beginner.write(field, value);
    await beginner.press('Work out the hour');
    await stands(/^Your hour/);
    for (const [path, title] of [
      ['/', /^Bench/],
      ['/clients', /^Clients/],
      ['/commissions', /^Commissions/],
      ['/cloth-room', /^Cloth room/],
      ['/papers', /^Papers/],
      ['/lessons', /^Lessons/],
      ['/house/keeping', /./],
    ] as const) {
      expect(await beginner.open(path), path).toBe(200);
      await stands(title);
    }
    expect(found).toEqual([]);
    expect(beginner.strangers).toEqual([]);
  }, 180_000);
});
