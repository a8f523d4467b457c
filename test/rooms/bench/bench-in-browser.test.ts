import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf, look } from '../../support/audit.js';
import { Maker } from '../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, clockOf, entriesOf, line, openGarments, tap } from './a-bench.js';

let studio: TestStudio;
let maker: Maker;
let jacket: BenchGarment;
beforeAll(async () => {
  studio = await openTestStudio();
  [jacket] = (await openGarments(studio, 'lounge-jacket', 'waistcoat')) as [BenchGarment];
  maker = await Maker.sitDown(await studio.listen(), studio.cookie, { width: 360 });
}, 60_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

const seen = (words: string): Promise<unknown> =>
  maker.page.waitForFunction(`document.body.innerText.includes(${JSON.stringify(words)})`, {
    timeout: 30_000,
  });
const press = (words: string): Promise<void> =>
  maker.page.locator(`::-p-xpath(//main//button[contains(normalize-space(), "${words}")])`).click();
const waiting = (): Promise<unknown> =>
  maker.page.evaluate(`JSON.parse(localStorage.getItem('bastings-taps') ?? '[]').length`);

describe('at the bench, on a phone', () => {
  it('keeps taps while the network is away, and delivers each once, in order, with its time', async () => {
    await maker.open(`/bench/garments/${jacket.id}`);
    await maker.page.setOfflineMode(true);
    await press('Consultation');
    await seen('One tap waits on this phone until the network is back.');
    await press('Stop');
    await seen('2 taps wait');
    await press('Measure and note');
    await seen('3 taps wait');
    expect(await waiting()).toBe(3);
    expect((await clockOf(studio)).clock).toBeNull();
    // The phone’s own clock stands at the real day and the server’s stands still: what counts is the time since the page came.
    studio.clock.forward(10);
    await maker.page.setOfflineMode(false);
    await maker.page.evaluate(`window.dispatchEvent(new Event('online'))`);
    await maker.page.waitForFunction(`!JSON.parse(localStorage.getItem('bastings-taps') ?? '[]').length`);
    await maker.page.waitForFunction(
      `document.querySelector('.running h2')?.textContent.startsWith('Measure')`,
    );
    const { clock } = await clockOf(studio);
    expect(clock).toMatchObject({ operationId: line(jacket, 'measure-and-note-figuration') });
    expect(clock?.begunAt < '2026-03-02T09:05').toBe(true);
    const acts = (await studio.api('GET', '/api/history?limit=20')).text;
    expect(acts.split('Started “Consultation').length - 1).toBe(1);
    expect(acts.split('Started “Measure').length - 1).toBe(1);
  }, 90_000);

  it('starts and stops with one tap each while the network is there', async () => {
    await maker.open(`/bench/garments/${jacket.id}`);
    await press('Draft the pattern');
    await maker.page.waitForFunction(
      `document.querySelector('.running h2')?.textContent.startsWith('Draft')`,
    );
    expect(maker.path).toBe('/bench');
    await press('Stop');
    await seen('No clock runs.');
    const [entry] = await entriesOf(studio, jacket.id);
    expect(entry).toMatchObject({ way: 'clock', kind: 'measure-and-note-figuration' });
    expect(Math.abs(entry?.minutes - 10)).toBeLessThan(3);
    expect(await waiting()).toBe(0);
  }, 60_000);

  it('says what was not taken, and forgets it when it was read', async () => {
    await maker.open('/bench');
    await tap(studio, { away: 'post' });
    studio.clock.forward(5);
    await maker.open('/bench');
    await tap(studio, {}, '/stop');
    await press('Stop');
    await seen('One tap was not taken.');
    await seen('It was stopped already.');
    await press('I have read this');
    expect(await waiting()).toBe(0);
  }, 60_000);

  it('has targets a thumb finds, fits 360 px, and passes the automated audit', async () => {
    await tap(studio, { garment: jacket.id, operation: line(jacket, 'final-press') });
    studio.clock.forward(20 * 60);
    const found: string[] = [];
    const audited = ['/bench', '/departure', '/time', '/sheet'];
    const own = '.taps button, .picks a, main details > summary, main button, main input, main select';
    for (const at of [
      '/bench',
      `/bench/garments/${jacket.id}`,
      `/bench/garments/${jacket.id}/departure`,
      `/bench/garments/${jacket.id}/sheet`,
      `/bench/garments/${jacket.id}/entries`,
      '/bench/time',
      '/bench/split',
      '/bench/garments',
    ]) {
      await maker.open(at);
      const small = await maker.page.evaluate(
        `[...document.querySelectorAll(${JSON.stringify(own)})].filter((one) => one.offsetParent && one.type !== 'hidden' && one.type !== 'checkbox' && one.getBoundingClientRect().height < 55.5).map((one) => one.outerHTML.slice(0, 80) + ' ' + one.getBoundingClientRect().height)`,
      );
      for (const one of small as string[]) found.push(`${at}: ${one}`);
      if (Number(await maker.page.evaluate('document.documentElement.scrollWidth - innerWidth')) > 0)
        found.push(`${at}: too wide`);
      if (!audited.some((end) => at.endsWith(end))) continue;
      const { broken } = await auditOf(maker.page);
      found.push(...broken.map((one) => `${at}: ${one}`));
    }
    expect(found).toEqual([]);
    expect(maker.strangers).toEqual([]);
  }, 120_000);

  it('has links in its tables a thumb finds, on a phone and at a desk', async () => {
    const day = studio.clock.now().slice(0, 10);
    const keep = async (url: string, fields: Record<string, string>) => {
      const kept = await studio.post(url, { once: randomUUID(), ...fields });
      expect(kept.status, kept.text.replace(/<[^>]*>/g, ' ').slice(0, 1500)).toBe(303);
    };
    const rates = { 'rates.0.work': 'Buttonholes by hand', 'rates.0.price': '3.50' };
    await keep('/bench/outwork/workers', { name: 'Pell Marrowby', reachedAt: '', notes: '', ...rates });
    const [{ id: outworker }] = (await studio.api('GET', '/api/outwork/workers')).json().items;
    const out = { outworker, garment: jacket.id, work: 'Buttonholes by hand', pieces: '8', pieceRate: '' };
    await keep('/bench/outwork', { ...out, outOn: day, dueOn: day, notes: '' });
    const piece = { name: 'Sabeline Thrushwood', reachedAt: '', what: 'Grey trousers', found: '', notes: '' };
    const job = { 'lines.0.fromList': '', 'lines.0.job': 'Waist button', 'lines.0.price': '2.50' };
    await keep('/bench/counter', { ...piece, ...job, cameOn: day, readyBy: day });
    const worked = { operation: line(jacket, 'final-press'), minutes: 20, on: day };
    const entered = await studio.api('POST', `/api/garments/${jacket.id}/bench-entries`, worked);
    expect(entered.status, entered.text).toBe(201);
    for (const at of [
      '/bench/outwork',
      '/bench/outwork/workers',
      '/bench/counter',
      '/bench/time',
      `/bench/garments/${jacket.id}/entries`,
    ]) {
      await maker.open(at);
      for (const width of [360, 1280]) {
        await look(maker.page, width, 'light');
        const heights = (await maker.page.evaluate(
          `[...document.querySelectorAll('main :is(td, th) a')].map((one) => one.getBoundingClientRect().height)`,
        )) as number[];
        expect(heights.length, at).toBeGreaterThan(0);
        expect(Math.min(...heights), `${at} at ${width} px`).toBeGreaterThan(55.5);
      }
    }
  }, 120_000);
});
