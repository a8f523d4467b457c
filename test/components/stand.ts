import { existsSync, readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname } from 'node:path';
import puppeteer, { type Browser, type Page } from 'puppeteer';
import { joinedLook, LOOK } from '../../src/app/look.js';
import { findBrowser } from '../../src/printing/browser/find-browser.js';

const kinds: Record<string, string> = {
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

const vendor: Record<string, string> = {
  '/assets/vendor/turbo.js': 'node_modules/@hotwired/turbo/dist/turbo.es2017-esm.js',
  '/assets/vendor/stimulus.js': 'node_modules/@hotwired/stimulus/dist/stimulus.js',
};

const fileOf = (path: string): string =>
  vendor[path] ??
  (path.startsWith('/assets/fonts/')
    ? path.replace(/^\/assets\/fonts\/([^/]+)\//, 'node_modules/@fontsource/$1/files/')
    : `templates${path}`);

/** What the stand answers to one request: a page, or the way to the next. */
export type Answer = { html: string; status?: number } | { seeOther: string };
export type Show = (method: string, url: URL, body: string) => Answer | Promise<Answer>;

/** A real browser before a real server of the look alone, under the studio's own content security policy. */
export class Stand {
  readonly asked: string[] = [];

  private constructor(
    private readonly server: ReturnType<typeof createServer>,
    private readonly browser: Browser,
  ) {}

  static async open(show: Show): Promise<Stand> {
    const path = await findBrowser();
    if (path === null) throw new Error('No browser was found on this machine.');
    const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    const browser = await puppeteer.launch({ executablePath: path, args: asRoot });
    const server = createServer((request, response) => void stand.answer(show, request, response));
    const stand = new Stand(server, browser);
    await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
    return stand;
  }

  get address(): string {
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  async page(path: string, width = 1280, scheme: 'light' | 'dark' = 'light'): Promise<Page> {
    const page = await this.browser.newPage();
    await page.setViewport({ width, height: 900 });
    await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
    await page.goto(this.address + path, { waitUntil: 'networkidle0' });
    return page;
  }

  async close(): Promise<void> {
    await this.browser.close();
    this.server.closeAllConnections();
    this.server.close();
  }

  private async answer(show: Show, request: IncomingMessage, response: ServerResponse): Promise<void> {
    const url = new URL(request.url ?? '/', this.address);
    if (url.pathname === LOOK)
      return void response.writeHead(200, { 'content-type': 'text/css' }).end(joinedLook('templates'));
    if (url.pathname.startsWith('/assets/')) return send(response, fileOf(url.pathname));
    this.asked.push(`${request.method} ${url.pathname}${url.search}`);
    let body = '';
    for await (const part of request) body += part;
    const answer = await show(request.method ?? 'GET', url, body);
    if ('seeOther' in answer) {
      response.writeHead(303, { location: answer.seeOther }).end();
      return;
    }
    response.writeHead(answer.status ?? 200, {
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': "default-src 'self'; style-src 'self' 'nonce-n1'; object-src 'none'",
    });
    response.end(answer.html);
  }
}

const send = (response: ServerResponse, file: string): void => {
  if (!existsSync(file)) {
    response.writeHead(404).end();
    return;
  }
  response.writeHead(200, { 'content-type': kinds[extname(file)] ?? 'text/plain' }).end(readFileSync(file));
};
