import puppeteer, { type Browser, type Page } from 'puppeteer';
import { findBrowser } from '../../src/printing/browser/find-browser.js';

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
export class Maker {
  /** Addresses outside the studio that a page asked for; must stay empty. */
  readonly strangers: string[] = [];
  /** What the pages complained about in the console. */
  readonly complaints: string[] = [];

  private constructor(
    private readonly browser: Browser,
    readonly page: Page,
    readonly address: string,
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
    const maker = new Maker(browser, page, address);
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

  /** Writes into a field by its name. */
  async write(field: string, text: string): Promise<void> {
    await this.page.locator(`[name="${field}"]`).fill(text);
  }

  /** Chooses one of a list by its value. */
  async choose(field: string, value: string): Promise<void> {
    await this.page.select(`[name="${field}"]`, value);
  }

  /** Presses a button by its words and waits until the page that follows stands. */
  async press(words: string): Promise<void> {
    const before = String(await this.page.evaluate(MAIN));
    const button = await this.page.waitForSelector(`::-p-xpath(//button[normalize-space()="${words}"])`, {
      timeout: 20_000,
    });
    await button?.click();
    await this.page
      .waitForFunction(`document.readyState === 'complete' && ${MAIN} !== ${JSON.stringify(before)}`, {
        timeout: 30_000,
      })
      .catch((error: unknown) => {
        throw new Error(`Pressing “${words}” on ${this.page.url()} changed nothing: ${String(error)}`);
      });
  }

  /** Follows a link by its words. */
  async follow(words: string): Promise<void> {
    const link = await this.page.waitForSelector(`::-p-xpath(//main//a[normalize-space()="${words}"])`, {
      timeout: 20_000,
    });
    const href = await link?.evaluate((one) => (one as unknown as { href: string }).href);
    await this.page.goto(href ?? '', { waitUntil: 'load' });
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
