import { type BrowserFinder, findBrowser } from './find-browser.js';
import { Places } from './places.js';
import { NoBrowser, PrintingFailed } from './print-troubles.js';
import { onSheet, type Sheet } from './sheet.js';
import { WarmBrowser } from './warm-browser.js';

export type PrinterSettings = {
  /** Where the browser is. */
  readonly find: BrowserFinder;
  /** How many papers are printed at once. */
  readonly pages: number;
  /** Milliseconds one paper may take, once it is its turn. */
  readonly timeLimit: number;
  /** Milliseconds a browser may take to start. */
  readonly startLimit: number;
  /** Milliseconds without a paper after which the browser is closed. */
  readonly idleClose: number;
};

const usual: PrinterSettings = {
  find: findBrowser,
  pages: 2,
  timeLimit: 20_000,
  startLimit: 30_000,
  idleClose: 120_000,
};

/** The sheet's own page rule has the margins. */
const NO_MARGIN = { marginTop: 0, marginBottom: 0, marginLeft: 0, marginRight: 0 };

class OverTime extends Error {}

const within = async <T>(work: Promise<T>, limit: number): Promise<T> => {
  let timer: NodeJS.Timeout | undefined;
  const bell = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new OverTime()), limit);
  });
  work.catch(() => undefined);
  try {
    return await Promise.race([work, bell]);
  } finally {
    clearTimeout(timer);
  }
};

/**
 * Prints HTML to tagged PDF in one warm browser, started at the first paper and closed when idle.
 *
 * Nothing in the HTML runs and nothing is fetched for it. A browser that hangs or dies is replaced.
 */
export class PdfPrinter {
  private readonly settings: PrinterSettings;
  private readonly places: Places;
  private readonly running = new Set<Promise<unknown>>();
  private warm: Promise<WarmBrowser> | undefined;
  private rest: NodeJS.Timeout | undefined;
  private closed = false;

  constructor(settings: Partial<PrinterSettings> = {}) {
    this.settings = { ...usual, ...settings };
    this.places = new Places(this.settings.pages);
  }

  /** True once a browser has been started and not yet closed. */
  get isWarm(): boolean {
    return this.warm !== undefined;
  }

  /** The running browser's process id; undefined when there is none. */
  async pid(): Promise<number | undefined> {
    return (await this.warm)?.pid;
  }

  /**
   * @throws NoBrowser when the machine has none
   * @throws PrintingFailed when the browser hung, died or would not start; the next paper gets a new one
   */
  print(html: string, sheet: Sheet): Promise<Uint8Array> {
    if (this.closed) return Promise.reject(new PrintingFailed('the program is shutting down.'));
    const paper = this.inTurn(onSheet(html, sheet));
    this.running.add(paper);
    const done = () => this.running.delete(paper);
    paper.then(done, done);
    return paper;
  }

  /** Lets the papers in hand finish, then closes the browser for good. */
  async close(): Promise<void> {
    this.closed = true;
    await Promise.allSettled(this.running);
    await this.cool();
  }

  private async inTurn(html: string): Promise<Uint8Array> {
    await this.places.take();
    clearTimeout(this.rest);
    try {
      return await this.printOrReplace(html, true);
    } finally {
      this.places.leave();
      this.restWhenIdle();
    }
  }

  private async printOrReplace(html: string, mayTryAgain: boolean): Promise<Uint8Array> {
    const browser = await this.browser();
    try {
      return await within(this.onPage(browser, html), this.settings.timeLimit);
    } catch (cause) {
      browser.kill();
      if (cause instanceof OverTime) {
        throw new PrintingFailed('it took too long, and the browser was replaced.', cause);
      }
      // The browser may have died between papers, or been replaced because of the neighbouring one.
      if (mayTryAgain) return this.printOrReplace(html, false);
      throw new PrintingFailed('the browser stopped in the middle, and was replaced.', cause);
    }
  }

  /** The bytes come in one answer: read as a stream, as the library would, they take three more turns and a tenth of the time. */
  private async onPage(browser: WarmBrowser, html: string): Promise<Uint8Array> {
    const warm = await browser.takePage();
    await warm.page.setContent(html, { waitUntil: 'load', timeout: this.settings.timeLimit });
    await warm.page.evaluate('document.fonts.ready.then(() => true)');
    const { data } = await warm.line.send('Page.printToPDF', {
      preferCSSPageSize: true,
      printBackground: true,
      generateTaggedPDF: true,
      generateDocumentOutline: true,
      ...NO_MARGIN,
    });
    browser.giveBack(warm);
    return Buffer.from(data, 'base64');
  }

  private async browser(): Promise<WarmBrowser> {
    const current = this.warm;
    if (current && !(await current).isAlive && this.warm === current) this.warm = undefined;
    if (!this.warm) {
      const starting = this.start();
      this.warm = starting;
      starting.catch(() => {
        if (this.warm === starting) this.warm = undefined;
      });
    }
    return this.warm;
  }

  private async start(): Promise<WarmBrowser> {
    const path = await this.settings.find();
    if (!path) throw new NoBrowser();
    try {
      return await WarmBrowser.start(path, this.settings.startLimit);
    } catch (cause) {
      throw new PrintingFailed(`the browser at ${path} did not start.`, cause);
    }
  }

  private restWhenIdle(): void {
    if (!this.places.areAllFree) return;
    clearTimeout(this.rest);
    this.rest = setTimeout(() => void this.cool(), this.settings.idleClose);
    this.rest.unref();
  }

  private async cool(): Promise<void> {
    clearTimeout(this.rest);
    const warm = this.warm;
    this.warm = undefined;
    if (warm) await warm.then((browser) => browser.close()).catch(() => undefined);
  }
}
