import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { PDFArray, PDFDict, PDFDocument, PDFName, PDFRawStream } from 'pdf-lib';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePaper } from '../../../../src/domain/papers/model/make-paper.js';
import { PdfPrinter } from '../../../../src/printing/browser/pdf-printer.js';
import { ciiOf } from '../../../../src/printing/exchange/cii/cii.js';
import { withAttachedXml } from '../../../../src/printing/exchange/pdf/attached-xml.js';
import { anInvoice } from '../../../domain/papers/quillmere.js';
import { readXml } from '../../../support/xml-tree.js';
import { readPdf } from '../../papers/read-pdf.js';

/* Read back by pdfjs-dist, a reader that shares no line with the writer. A PDF of the real browser, tagged and outlined. */

const printer = new PdfPrinter();
const at = '2026-05-04T09:30:00.000Z';
const xml = ciiOf(makePaper(anInvoice({}, { 'BT-22': 'Œuvre & 漢字' })));
const home = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
let before: Uint8Array;
let after: Uint8Array;

/** What a reader is told beyond the text: drawing by page, metadata, attachments. */
const inside = async (bytes: Uint8Array) => {
  const task = getDocument({
    data: new Uint8Array(bytes),
    standardFontDataUrl: `${join(home, 'standard_fonts')}/`,
    verbosity: 0,
  });
  const document = await task.promise;
  const drawn: unknown[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const { fnArray } = await page.getOperatorList();
    const { items } = await page.getTextContent();
    drawn.push({
      view: page.view,
      fnArray,
      items: items.map((item) => ('str' in item ? [item.str, item.transform] : [])),
    });
  }
  const { info, metadata } = await document.getMetadata();
  const attachments = (await document.getAttachments()) as Record<
    string,
    { filename: string; content: Uint8Array; description?: string }
  > | null;
  await task.destroy();
  return { drawn, info: info as Record<string, unknown>, packet: metadata, attachments };
};

beforeAll(async () => {
  before = await printer.print(
    '<!doctype html><html lang="en-IE"><head><title>Invoice I-2026-007</title></head><body><h1>Invoice</h1>' +
      '<p>Corvin Haddlestone owes €1,826.87 – Œuvre</p><h1 style="break-before:page">Terms</h1><p>14 days</p></body></html>',
    { format: 'A4' },
  );
  after = await withAttachedXml(before, xml, { at });
}, 60_000);

afterAll(() => printer.close());

describe('a PDF with attached invoice data', () => {
  it('has the same pages, text, tags, outline, title and drawing', async () => {
    expect(await readPdf(after)).toMatchObject({
      ...(await readPdf(before)),
      fonts: expect.anything(),
      embedded: expect.anything(),
      isTagged: expect.anything(),
    });
    expect((await inside(after)).drawn).toEqual((await inside(before)).drawn);
  });

  it('carries the XML byte by byte, under a plain name', async () => {
    const { attachments } = await inside(after);
    expect(Object.keys(attachments ?? {})).toEqual(['invoice.xml']);
    const file = attachments?.['invoice.xml'];
    expect(Buffer.from(file?.content ?? []).toString('utf8')).toBe(xml);
    expect((await inside(before)).attachments).toBeNull();
  });

  it('says what it is and claims no conformance', async () => {
    const { packet, info } = await inside(after);
    expect(packet?.get('dc:title')).toBe('Invoice I-2026-007');
    expect(info.Title).toBe('Invoice I-2026-007');
    const document = await PDFDocument.load(after, { updateMetadata: false });
    const catalog = document.catalog;
    const associated = catalog.lookup(PDFName.of('AF'), PDFArray).lookup(0, PDFDict);
    expect(String(associated.get(PDFName.of('AFRelationship')))).toBe('/Alternative');
    const intent = catalog.lookup(PDFName.of('OutputIntents'), PDFArray).lookup(0, PDFDict);
    expect(intent.lookup(PDFName.of('DestOutputProfile'))).toBeInstanceOf(PDFRawStream);
    const stream = catalog.lookup(PDFName.of('Metadata'));
    if (!(stream instanceof PDFRawStream)) throw new Error('There is no metadata.');
    const words = Buffer.from(stream.contents).toString('utf8');
    expect(words).not.toMatch(/pdfaid|pdfa|conformance/i);
    expect(words).toContain('<xmp:ModifyDate>2026-05-04T09:30:00.000Z</xmp:ModifyDate>');
    expect(
      readXml(words, {
        'adobe:ns:meta/': 'x',
        'http://www.w3.org/1999/02/22-rdf-syntax-ns#': 'rdf',
        'http://purl.org/dc/elements/1.1/': 'dc',
        'http://ns.adobe.com/xap/1.0/': 'xmp',
        'http://ns.adobe.com/pdf/1.3/': 'pdf',
      }).words('rdf:RDF/rdf:Description/dc:language/rdf:Bag/rdf:li'),
    ).toBe('en-IE');
  });

  it('is the same for the same paper, and leaves the original alone', async () => {
    const original = Buffer.from(before).toString('base64');
    const again = await withAttachedXml(before, xml, { at });
    expect(Buffer.from(again).equals(Buffer.from(after))).toBe(true);
    expect(Buffer.from(before).toString('base64')).toBe(original);
  });

  it('is refused for what is no PDF, and for a name that is a path', async () => {
    await expect(withAttachedXml(new Uint8Array([1, 2, 3]), xml, { at })).rejects.toThrow('no PDF');
    await expect(withAttachedXml(before, xml, { at, name: '../invoice.xml' })).rejects.toThrow(
      'plain file name',
    );
  });
});
