import { startChild } from '../child.mjs';
import { pagesOf } from './measure-years.mjs';

const REQUESTS = Number(process.env.REQUESTS ?? 5000);
const PRINTS = Number(process.env.PRINTS ?? 30);
/** As many people and windows as a workroom has. */
const AT_ONCE = 4;
/** What a day may leave behind, in times of what stood there before. */
const MOST = 2;

/**
 * The memory of the server on the demonstration studio: as it stands, after a day of pages, time put down and papers printed,
 * and once the garbage is collected. The browser that prints is a process of its own and not counted.
 */
export async function measureMemory() {
  const studio = await startChild('years/old-studio.mjs', { execArgv: ['--expose-gc'] });
  try {
    const idle = await studio.ask('memory, tidied');
    const day = await aDay(studio.ready);
    const after = await studio.ask('memory');
    const tidied = await studio.ask('memory, tidied');
    const words = ({ whole, heap }) => `${whole.toFixed(0)} MB, ${heap.toFixed(0)} of it heap in use`;
    return [
      {
        what: 'heap after a day of use, against before',
        against: 'the heap before the day, tidied',
        ours: tidied.heap,
        floor: idle.heap,
        most: MOST,
        unit: 'MB',
        note: `${day.requests} requests by ${AT_ONCE} at once (${day.writes} of them writes) and ${day.prints} papers printed, in ${day.seconds.toFixed(0)} s`,
      },
      {
        what: 'memory of the process after that day',
        against: 'the same process before it',
        ours: after.whole,
        floor: idle.whole,
        unit: 'MB',
        note: `before: ${words(idle)}; after: ${words(after)}; tidied: ${words(tidied)}; the demonstration was loaded in the same process`,
      },
    ];
  } finally {
    await studio.stop();
  }
}

/** Pages in turn, every tenth request minutes put down at the bench, papers spread over the day. */
async function aDay({ address, cookie, token, garment, commission }) {
  const from = performance.now();
  const paths = Object.values(pagesOf({ garment, commission }));
  const printed = ['docket', 'making-sheet'].map(
    (paper) => `/commissions/${commission}/garments/${garment}/${paper}.pdf`,
  );
  const every = Math.max(1, Math.floor(REQUESTS / PRINTS));
  const done = { requests: 0, writes: 0, prints: 0 };
  let next = 0;
  const get = async (path) => {
    const headers = path.startsWith('/api') ? { authorization: `Bearer ${token}` } : { cookie };
    const answer = await fetch(address + path, { headers });
    const body = await answer.arrayBuffer();
    if (!answer.ok || body.byteLength === 0) throw new Error(`${path} answered ${answer.status}.`);
  };
  const putDown = async (n) => {
    const answer = await fetch(`${address}/api/garments/${garment}/bench-entries`, {
      method: 'POST',
      headers: {
        authorization: `Bearer ${token}`,
        'content-type': 'application/json',
        'idempotency-key': crypto.randomUUID(),
      },
      body: JSON.stringify({ stage: 'make', minutes: 1 + (n % 40), on: '2026-03-01', evenIfOdd: true }),
    });
    if (!answer.ok) throw new Error(`An entry answered ${answer.status}: ${await answer.text()}`);
    await answer.arrayBuffer();
  };
  const lane = async () => {
    while (next < REQUESTS) {
      const n = next;
      next += 1;
      if (n % every === every - 1 && done.prints < PRINTS) {
        done.prints += 1;
        await get(printed[done.prints % printed.length]);
      } else if (n % 10 === 0) {
        done.writes += 1;
        await putDown(n);
      } else await get(paths[n % paths.length]);
      done.requests += 1;
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
  return { ...done, seconds: (performance.now() - from) / 1000 };
}
