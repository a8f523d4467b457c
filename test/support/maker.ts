import puppeteer, { type Browser, type ElementHandle, type Page } from 'puppeteer';
import { findBrowser } from '../../src/printing/browser/find-browser.js';
import type { Hand } from './hand.js';

/** Flags that keep the browser itself off every network. */
const QUIET = [
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--disable-quic',
];

const MAIN = `(document.title + location.href + (document.querySelector('main')?.textContent ?? ''))`;

/** A person before the studio's pages in a real browser: with script or without, on a desk or a phone. */
export class Maker implements Hand {
  /** Addresses outside the studio that a page asked for; must stay empty. */
  readonly strangers: string[] = [];
  /** What the pages complained about in the console. */
  readonly complaints: string[] = [];

  private constructor(
    private readonly browser: Browser,
    readonly page: Page,
    readonly address: string,
    private readonly scripted: boolean,
  ) {}

  static async sitDown(
    address: string,
    cookie: string | undefined,
    sight: { width?: number; dark?: boolean; script?: boolean } = {},
  ): Promise<Maker> {
    const path = await findBrowser();
    if (!path) throw new Error('No browser was found on this machine.');
    const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    const browser = await puppeteer.launch({ executablePath: path, args: [...QUIET, ...asRoot] });
    const page = await browser.newPage();
    const maker = new Maker(browser, page, address, sight.script !== false);
    await page.setJavaScriptEnabled(sight.script !== false);
    await maker.look(sight.width ?? 1280, sight.dark ?? false);
    page.on('request', (request) => {
      const url = request.url();
      if (!url.startsWith(address) && !url.startsWith('data:')) maker.strangers.push(url);
    });
    page.on('console', (line) => {
      if (line.type() === 'error') maker.complaints.push(line.text());
    });
    page.on('pageerror', (error) => maker.complaints.push(String(error)));
    if (cookie) {
      const [name = '', value = ''] = cookie.split('=');
      await browser.setCookie({ name, value, domain: new URL(address).hostname, path: '/', httpOnly: true });
    }
    return maker;
  }

  async look(width: number, dark: boolean): Promise<void> {
    await this.page.setViewport({ width, height: 900 });
    await this.page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: dark ? 'dark' : 'light' }]);
  }

  /** Opens a page. @returns its HTTP status */
  async open(path: string): Promise<number> {
    const answer = await this.page.goto(this.address + path, { waitUntil: 'load', timeout: 60_000 });
    return answer?.status() ?? 0;
  }

  /** Writes into a field by its name, in the place of what stands there. */
  async write(field: string, text: string): Promise<void> {
    const entry = await this.found(`[name="${field}"]`);
    await entry.evaluate((one) => {
      (one as unknown as { value: string }).value = '';
    });
    await entry.type(text);
  }

  /** Ticks a box, or unticks it. */
  async tick(field: string): Promise<void> {
    await (await this.found(`[name="${field}"]`)).click();
  }

  /** Chooses one of a list by its value. */
  async choose(field: string, value: string): Promise<void> {
    await this.page.select(`[name="${field}"]`, value);
  }

  /** Picks one of a few, all in sight, by its value. */
  async pick(field: string, value: string): Promise<void> {
    await (await this.found(`[name="${field}"][value="${value}"]`)).click();
  }

  /** Ticks a box by the words beside it, or those they begin with. */
  async tickBeside(words: string): Promise<void> {
    const box = `::-p-xpath(//main//label[starts-with(normalize-space(), "${words}")]//input)`;
    await (await this.found(box)).click();
  }

  /** Ticks every box of the page that is not ticked. */
  async tickAll(): Promise<void> {
    for (const box of await this.page.$$('main input[type=checkbox]:not(:checked)')) await box.click();
  }

  /** Presses a button by its words, or by those it begins with, and waits until the page that follows stands. */
  async press(words: string): Promise<void> {
    const button =
      (await this.page.$(`::-p-xpath(//main//button[normalize-space()="${words}"])`)) ??
      (await this.found(`::-p-xpath(//main//button[starts-with(normalize-space(), "${words} ")])`));
    if (!this.scripted) {
      await Promise.all([
        this.page.waitForNavigation({ waitUntil: 'load', timeout: 60_000 }),
        button.click(),
      ]);
      return;
    }
    const before = String(await this.page.evaluate(MAIN));
    await button.click();
    await this.page.waitForFunction(
      `document.readyState === 'complete' && ${MAIN} !== ${JSON.stringify(before)}`,
      {
        timeout: 60_000,
      },
    );
  }

  /** Follows a link by its words: one of the page, or a room. */
  async follow(words: string): Promise<void> {
    const link = await this.found(
      `::-p-xpath(//*[self::main or self::nav]//a[normalize-space()="${words}"])`,
    );
    const href = await link.evaluate((one) => (one as unknown as { href: string }).href);
    await this.page.goto(href, { waitUntil: 'load', timeout: 60_000 });
  }

  /** Waiting would need script in the page, which may be off: what is not there now is a fault of the page. */
  private async found(selector: string): Promise<ElementHandle> {
    const one = await this.page.$(selector);
    if (!one) throw new Error(`${selector} is not on ${this.path}:\n${(await this.text()).slice(0, 1500)}`);
    return one;
  }

  /** Everything readable on the page. */
  async text(): Promise<string> {
    return String(await this.page.evaluate('document.body.innerText'));
  }

  get path(): string {
    const url = new URL(this.page.url());
    return url.pathname + url.search;
  }

  async leave(): Promise<void> {
    await this.browser.close();
  }
}
