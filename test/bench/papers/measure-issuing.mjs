import { ensurePostgres, startPostgres } from '../../../.setup/postgres/server.mjs';
import { onSheet } from '../../../dist/printing/browser/sheet.js';
import { invoiceBook } from '../../../dist/storage/books/papers/invoice-book.js';
import { interleaved, median, quantile, timed } from '../measure.mjs';
import { furnish, layReady, openDesk } from './a-desk.mjs';

const ROUNDS = 25;
const WARM_UP = 4;
const BATCH = 200;
const THOUSAND = 1000;

/** Invoices issued one by one, two hundred together, and a thousand from two servers. */
export async function measureIssuing() {
  const desk = await openDesk();
  try {
    const house = await furnish(desk);
    return [await onePage(desk, house), await together(desk, house), await aThousand()];
  } finally {
    await desk.close();
  }
}

/** A whole issue (check, number, print, hash, keep) against the very same browser printing the same HTML. */
const onePage = async (desk, house) => {
  const { drafts, confirmed } = await layReady(desk, house, ROUNDS + WARM_UP + 1);
  const kept = await spiedOn(desk.printer, () =>
    desk.issuing.issue(house.visit, drafts[0].id, confirmed, drafts[0].version),
  );
  const { browser } = await desk.printer.warm;
  const page = await browser.newPage();
  const alone = async () => {
    await page.setContent(kept, { waitUntil: 'load' });
    await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true, outline: true });
  };
  let next = 1;
  const issue = () => {
    const { id, version } = drafts[next++];
    return desk.issuing.issue(house.visit, id, confirmed, version);
  };
  const times = await interleaved(
    { ours: () => timed(issue), alone: () => timed(alone) },
    { rounds: ROUNDS, warmUp: WARM_UP },
  );
  await page.close();
  return {
    what: 'issue of a one-page invoice, browser warm',
    against: 'the same browser printing the same HTML alone',
    ours: median(times.ours),
    floor: median(times.alone),
    most: 1.25,
    note: `median of ${ROUNDS}, SQLite; p95 ${quantile(times.ours, 0.95).toFixed(0)} and ${quantile(times.alone, 0.95).toFixed(0)} ms`,
  };
};

/** The HTML of the paper that is printed meanwhile. */
const spiedOn = async (printer, work) => {
  let whole = '';
  printer.print = (html, sheet) => {
    whole = onSheet(html, sheet);
    return Object.getPrototypeOf(printer).print.call(printer, html, sheet);
  };
  try {
    await work();
  } finally {
    delete printer.print;
  }
  return whole;
};

/** Two hundred in one batch against the pool printing the same papers and nothing else. */
const together = async (desk, house) => {
  const { drafts, confirmed } = await layReady(desk, house, BATCH);
  const papers = [];
  const print = (html, sheet) => Object.getPrototypeOf(desk.printer).print.call(desk.printer, html, sheet);
  desk.printer.print = (html, sheet) => {
    papers.push([html, sheet]);
    return print(html, sheet);
  };
  const ours = await timed(() => issued(desk, house, drafts, confirmed));
  delete desk.printer.print;
  if (papers.length !== BATCH) throw new Error(`${papers.length} papers were printed for ${BATCH}.`);
  const floor = await timed(() => Promise.all(papers.map(([html, sheet]) => print(html, sheet))));
  return {
    what: `batch of ${BATCH} invoices`,
    against: 'the same pool of pages printing the same papers, nothing kept',
    ours,
    floor,
    most: 1.5,
    note: `${(ours / BATCH).toFixed(0)} ms a paper, each checked, numbered, printed once, hashed and kept; SQLite`,
  };
};

const issued = async ({ batches }, { visit }, drafts, confirmed) => {
  const batch = await batches.begin(visit, drafts, confirmed);
  await batches.idle();
  if (batch.state !== 'done') throw new Error(`The batch stopped: ${batch.stoppedBy?.why}`);
};

/** A thousand from two servers on one PostgreSQL: how many numbers are missing, double or out of their row. */
const aThousand = async () => {
  const programs = await ensurePostgres({ say: () => undefined });
  const postgres = await startPostgres(programs);
  const first = await openDesk({ DATABASE_URL: postgres.url });
  const second = await openDesk({ DATABASE_URL: postgres.url });
  try {
    const house = await furnish(first);
    const { drafts, confirmed } = await layReady(first, house, THOUSAND);
    const half = THOUSAND / 2;
    const time = await timed(() =>
      Promise.all([
        issued(first, house, drafts.slice(0, half), confirmed),
        issued(second, house, drafts.slice(half), confirmed),
      ]),
    );
    const numbers = await numbersOf(first.read);
    const wrong = numbers.filter((number, place) => number !== place + 1).length;
    return {
      what: `${THOUSAND.toLocaleString('en')} invoices from two servers on PostgreSQL: numbers not consecutive`,
      count: wrong + Math.abs(THOUSAND - numbers.length),
      note: `${numbers.length} issued, numbers ${numbers[0]} to ${numbers.at(-1)}, in ${(time / 1000).toFixed(0)} s`,
    };
  } finally {
    await second.close();
    await first.close();
    await postgres.stop();
  }
};

/** The counters of all issued numbers, in order. */
const numbersOf = async (read) => {
  const papers = await invoiceBook.between(read, '1900-01-01', '2199-12-31');
  return papers.map(({ number }) => Number(/(\d+)$/.exec(number)[1])).sort((a, b) => a - b);
};
