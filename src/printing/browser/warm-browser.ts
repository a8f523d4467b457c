import type { Browser, CDPSession, HTTPRequest, Page } from 'puppeteer';

const flags = [
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--disable-default-apps',
  '--disable-extensions',
  '--host-resolver-rules=MAP * ~NOTFOUND',
];

/** Chromium refuses its sandbox to root; for anybody else the sandbox stays. */
const sandboxFlags = (): string[] => (process.getuid?.() === 0 ? ['--no-sandbox'] : []);

const refuse = (request: HTTPRequest): void => {
  const answer = request.url().startsWith('data:') ? request.continue() : request.abort('blockedbyclient');
  answer.catch(() => undefined);
};

/** A page, and the line on which the browser is asked for the paper itself. */
export type WarmPage = { readonly page: Page; readonly line: CDPSession };

/** One running browser and its pages, which are used again and again. */
export class WarmBrowser {
  private readonly idle: WarmPage[] = [];
  private killed = false;

  private constructor(private readonly browser: Browser) {}

  static async start(path: string, timeLimit: number): Promise<WarmBrowser> {
    const { default: puppeteer } = await import('puppeteer');
    const browser = await puppeteer.launch({
      executablePath: path,
      // A pipe opens no port that another program on the machine could talk to.
      pipe: true,
      args: [...flags, ...sandboxFlags()],
      timeout: timeLimit,
      handleSIGINT: false,
      handleSIGTERM: false,
      handleSIGHUP: false,
    });
    return new WarmBrowser(browser);
  }

  get isAlive(): boolean {
    return this.browser.connected && !this.killed;
  }

  /** The process id, so that what is running can be told. */
  get pid(): number | undefined {
    return this.browser.process()?.pid;
  }

  /** A page on which nothing runs and from which nothing is fetched. */
  async takePage(): Promise<WarmPage> {
    const waiting = this.idle.pop();
    if (waiting) return waiting;
    const page = await this.browser.newPage();
    await page.setJavaScriptEnabled(false);
    await page.setRequestInterception(true);
    page.on('request', refuse);
    await page.setOfflineMode(true);
    return { page, line: await page.createCDPSession() };
  }

  giveBack(page: WarmPage): void {
    this.idle.push(page);
  }

  /** Closes in good order. */
  async close(): Promise<void> {
    try {
      await this.browser.close();
    } catch {
      this.kill();
    }
  }

  /** Ends a browser that no longer answers, with everything it started. */
  kill(): void {
    this.killed = true;
    const running = this.browser.process();
    if (!running?.pid) return;
    try {
      // Puppeteer gives the browser a process group of its own; a renderer that hangs would outlive its parent.
      if (process.platform === 'win32') running.kill('SIGKILL');
      else process.kill(-running.pid, 'SIGKILL');
    } catch {
      // It was gone already.
    }
  }
}
