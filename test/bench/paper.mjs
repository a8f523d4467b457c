import { PdfPrinter } from '../../dist/printing/browser/pdf-printer.js';
import { onSheet } from '../../dist/printing/browser/sheet.js';
import { Stationery } from '../../dist/printing/papers/stationery.js';
import { Templates } from '../../dist/printing/templates/templates.js';
import { fromTests } from './from-tests.mjs';
import { interleaved, median, quantile, timed } from './measure.mjs';

const ROUNDS = 25;

/** A quote drawn and printed, against the very same browser printing the same HTML on a page of its own. */
export async function measurePaper() {
  const { quote } = await fromTests('test/printing/papers/quillmere.ts');
  const templates = new URL('../../templates', import.meta.url).pathname;
  const stationery = new Stationery(new Templates(templates), templates);
  const printer = new PdfPrinter();
  if (printer.isWarm) throw new Error('A browser was started before there was anything to print.');
  try {
    const first = await timed(() => print(printer, stationery, quote()));
    // Only the bench looks behind the printer: the floor has to be the same running browser.
    const { browser } = await printer.warm;
    const page = await browser.newPage();
    const { html, sheet } = stationery.quote(quote());
    const whole = onSheet(html, sheet);
    const alone = async () => {
      await page.setContent(whole, { waitUntil: 'load' });
      await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true, outline: true });
    };
    const times = await interleaved(
      { ours: () => timed(() => print(printer, stationery, quote())), alone: () => timed(alone) },
      { rounds: ROUNDS, warmUp: 4 },
    );
    return [
      {
        what: 'quote PDF, browser warm',
        against: 'the same browser printing the same HTML alone',
        ours: median(times.ours),
        floor: median(times.alone),
        most: 1.25,
        note: `median of ${ROUNDS}; p95 ${quantile(times.ours, 0.95).toFixed(0)} and ${quantile(times.alone, 0.95).toFixed(0)} ms; the first, which starts the browser, ${first.toFixed(0)} ms`,
      },
    ];
  } finally {
    await printer.close();
  }
}

const print = async (printer, stationery, quote) => {
  const { html, sheet } = stationery.quote(quote);
  const bytes = await printer.print(html, sheet);
  if (bytes.length < 1000) throw new Error('The paper is empty.');
};
