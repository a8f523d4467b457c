import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PdfPrinter } from '../../src/printing/browser/pdf-printer.js';
import { NoBrowser, PrintingFailed } from '../../src/printing/browser/print-troubles.js';
import { readPdf } from './papers/read-pdf.js';

const paper = (body: string): string =>
  `<!doctype html><html lang="en"><head><title>Proof</title></head><body>${body}</body></html>`;

const a4 = { format: 'A4' } as const;

describe('printing', () => {
  const printer = new PdfPrinter();
  const asked: string[] = [];
  let elsewhere: Server;
  let address: string;

  beforeAll(async () => {
    elsewhere = createServer((request, reply) => {
      asked.push(request.url ?? '');
      reply.end('fetched');
    });
    await new Promise<void>((ready) => elsewhere.listen(0, '127.0.0.1', ready));
    address = `http://127.0.0.1:${(elsewhere.address() as AddressInfo).port}`;
  });

  afterAll(async () => {
    await printer.close();
    await new Promise((closed) => elsewhere.close(closed));
  });

  it('starts no browser before the first paper', async () => {
    const cold = new PdfPrinter();
    expect(cold.isWarm).toBe(false);
    await cold.close();
  });

  it('prints tagged text with language, outline and n of m', async () => {
    const pages = '<h1>First</h1><p>Collar felled by hand</p><h1 style="break-before:page">Second</h1>';
    const pdf = await readPdf(await printer.print(paper(pages), { format: 'A5', footerWords: 'C-014' }));
    expect(pdf.pages).toHaveLength(2);
    expect(pdf.pages[0]).toContain('Collar felled by hand');
    expect(pdf.pages[0]).toMatch(/1 of 2.*C-014/s);
    expect(pdf.pages[1]).toContain('2 of 2');
    expect(pdf.language).toBe('en');
    expect(pdf.isTagged).toBe(true);
    expect(pdf.tags).toContain('H1');
    expect(pdf.outline).toEqual(['First', 'Second']);
    expect(pdf.title).toBe('Proof');
    expect(pdf.size).toEqual([420, 595]);
  });

  it.each([
    ['A4', [595, 842]],
    ['Letter', [612, 792]],
    ['A5 landscape', [595, 420]],
    ['A6', [298, 420]],
  ] as const)('prints on %s', async (format, size) => {
    expect((await readPdf(await printer.print(paper('x'), { format }))).size).toEqual(size);
  });

  it('writes any words into the margins as words', async () => {
    const words = '"; } @import url(x); <b>Ömer</b> \\ {{name}} أحمد 縫';
    const pdf = await readPdf(await printer.print(paper('x'), { ...a4, footerWords: words }));
    expect(pdf.pages[0]).toContain('"; } @import url(x); <b>Ömer</b> \\ {{name}}');
    expect(pdf.pages).toHaveLength(1);
  });

  it('fetches nothing, from the network or from the disk', async () => {
    const body = [
      `<img src="${address}/picture"><link rel="stylesheet" href="${address}/sheet">`,
      `<iframe src="${address}/frame"></iframe><iframe src="file:///etc/passwd"></iframe>`,
      `<object data="${address}/object"></object><style>@import url("${address}/import");</style>`,
      `<div style="background:url(${address}/background)">still printed</div>`,
      `<script src="${address}/script"></script>`,
    ].join('');
    const pdf = await readPdf(await printer.print(paper(body), a4));
    expect(pdf.pages.join()).toContain('still printed');
    expect(pdf.pages.join()).not.toMatch(/fetched|root:/);
    expect(asked).toEqual([]);
  });

  it('does not follow a page that sends itself elsewhere', async () => {
    const leaving = paper(`<p>stays</p><meta http-equiv="refresh" content="0;url=${address}/gone">`);
    await printer.print(leaving, a4).catch(() => undefined);
    const next = await readPdf(await printer.print(paper('next'), a4));
    expect(next.pages[0]).toContain('next');
    expect(asked).toEqual([]);
  });

  it('runs no script', async () => {
    const body =
      '<p id="a">as written</p><script>document.getElementById("a").textContent="changed"</script>';
    const pdf = await readPdf(await printer.print(paper(body), a4));
    expect(pdf.pages[0]).toContain('as written');
  });

  it('prints many at once, each its own', async () => {
    const names = Array.from({ length: 7 }, (_, each) => `garment number ${each}`);
    const pdfs = await Promise.all(names.map(async (name) => readPdf(await printer.print(paper(name), a4))));
    expect(pdfs.map((pdf) => pdf.pages[0])).toEqual(names.map((name) => expect.stringContaining(name)));
  });
});

describe('a browser that fails', () => {
  it('is replaced when it died between two papers', async () => {
    const printer = new PdfPrinter();
    await printer.print(paper('one'), a4);
    const first = (await printer.pid()) ?? 0;
    process.kill(first, 'SIGKILL');
    const pdf = await readPdf(await printer.print(paper('two'), a4));
    expect(pdf.pages[0]).toContain('two');
    expect(await printer.pid()).not.toBe(first);
    await printer.close();
  });

  it('is replaced when it dies under two papers, and both are printed', async () => {
    const printer = new PdfPrinter();
    await printer.print(paper('one'), a4);
    const long = paper('<p>a line of a long paper</p>'.repeat(4000));
    const both = Promise.all([printer.print(long, a4), printer.print(long, a4)]);
    process.kill((await printer.pid()) ?? 0, 'SIGKILL');
    for (const bytes of await both) {
      expect((await readPdf(bytes)).pages.join('').match(/a line of/g)).toHaveLength(4000);
    }
    await printer.close();
  });

  it('is replaced when it hangs, and says so', async () => {
    const printer = new PdfPrinter({ timeLimit: 6000 });
    await printer.print(paper('one'), a4);
    const first = (await printer.pid()) ?? 0;
    process.kill(first, 'SIGSTOP');
    await expect(printer.print(paper('two'), a4)).rejects.toThrow(/too long.*Nothing was lost/s);
    const pdf = await readPdf(await printer.print(paper('three'), a4));
    expect(pdf.pages[0]).toContain('three');
    expect(() => process.kill(first, 0)).toThrow();
    await printer.close();
  });

  it('is told when it would not start', async () => {
    const printer = new PdfPrinter({ find: async () => process.execPath, startLimit: 3000 });
    await expect(printer.print(paper('x'), a4)).rejects.toBeInstanceOf(PrintingFailed);
    expect(printer.isWarm).toBe(false);
    await printer.close();
  });

  it('is asked for in words when there is none', async () => {
    const printer = new PdfPrinter({ find: async () => null });
    const refusal = printer.print(paper('x'), a4);
    await expect(refusal).rejects.toBeInstanceOf(NoBrowser);
    await expect(refusal).rejects.toThrow(/Install Chrome, Chromium or Edge/);
    await printer.close();
  });

  it('is closed when nothing was printed for a while, and started again when needed', async () => {
    const printer = new PdfPrinter({ idleClose: 50 });
    await printer.print(paper('one'), a4);
    const first = (await printer.pid()) ?? 0;
    await expect.poll(() => printer.isWarm).toBe(false);
    await expect.poll(() => isRunning(first)).toBe(false);
    expect((await readPdf(await printer.print(paper('two'), a4))).pages[0]).toContain('two');
    await printer.close();
    await expect(printer.print(paper('three'), a4)).rejects.toThrow(/shutting down/);
  });
});

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};
