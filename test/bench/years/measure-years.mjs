// Ten years of records against the demonstration studio: each main page asked in turn of both.

import { writeFileSync } from 'node:fs';
import http from 'node:http';
import { fileURLToPath } from 'node:url';
import { startChild } from '../child.mjs';
import { interleaved, median, quantile } from '../measure.mjs';

const ROUNDS = Number(process.env.ROUNDS ?? 60);
const WARM_UP = Math.ceil(ROUNDS / 4);

const asking = ({ address, cookie, token }, path) => {
  const agent = new http.Agent({ keepAlive: true, maxSockets: 1 });
  const headers = path.startsWith('/api') ? { authorization: `Bearer ${token}` } : { cookie };
  const ask = () =>
    new Promise((resolve, reject) => {
      http
        .get(`${address}${path}`, { agent, headers }, (answer) => {
          answer.resume();
          answer.on('end', () =>
            answer.statusCode === 200
              ? resolve()
              : reject(new Error(`${path} answered ${answer.statusCode}.`)),
          );
        })
        .on('error', reject);
    });
  return {
    time: async () => {
      const from = performance.now();
      await ask();
      return performance.now() - from;
    },
    leave: () => agent.destroy(),
  };
};

/** The pages people look at every day, by the ids of each studio's own rows. */
export const pagesOf = ({ garment, commission }) => ({
  'the day sheet': '/',
  'the bench': '/bench',
  clients: '/clients',
  commissions: '/commissions',
  'a commission': `/commissions/${commission}`,
  'a job sheet': `/commissions/${commission}/garments/${garment}`,
  'where a garment lands': `/commissions/${commission}/garments/${garment}/landing`,
  'time of a garment': `/bench/garments/${garment}`,
  'the cloth room': '/cloth-room',
  papers: '/papers',
  lessons: '/lessons',
  rates: '/rates',
  history: '/history',
  'the forecast of a garment': `/api/garments/${garment}/forecast`,
});

export const measureYears = () => measureAfter('ten-years');

/** A million entries at the bench. */
export const measureTwentyYears = () => measureAfter('twenty-years');

async function measureAfter(years) {
  const after = `after ${years.replace('-', ' ')}`;
  const demo = await startChild('years/old-studio.mjs');
  const old = await startChild('years/old-studio.mjs', { args: [years] });
  try {
    const [ours, theirs] = [pagesOf(old.ready), pagesOf(demo.ready)];
    const rows = [];
    for (const [what, path] of Object.entries(ours))
      rows.push(await measurePage(`${what}, ${after}`, [old, path], [demo, theirs[what]]));
    rows.push(...(await measureClock(old, demo, after)));
    if (years === 'ten-years') writePlans(await old.ask('plans'), old.ready);
    else rows.push(filledRow(old.ready, after));
    return rows;
  } finally {
    await Promise.all([demo.stop(), old.stop()]);
  }
}

async function measurePage(what, [old, path], [demo, same]) {
  const [ours, theirs] = [asking(old.ready, path), asking(demo.ready, same)];
  const first = await ours.time();
  const times = await interleaved(
    { ours: ours.time, theirs: theirs.time },
    { rounds: ROUNDS, warmUp: WARM_UP },
  );
  ours.leave();
  theirs.leave();
  return {
    what,
    against: 'the same page of the demonstration studio',
    ours: median(times.ours),
    floor: median(times.theirs),
    most: 2,
    note: `median of ${ROUNDS}; p95 ${quantile(times.ours, 0.95).toFixed(1)} and ${quantile(times.theirs, 0.95).toFixed(1)} ms; the first ${first.toFixed(0)} ms`,
  };
}

/** Starting and stopping the clock, as a program does it: server time. */
async function measureClock(old, demo, after) {
  const times = {};
  for (const [name, studio] of Object.entries({ old, demo })) {
    const { address, token, garment, operation } = studio.ready;
    const send = (method, body) =>
      fetch(`${address}/api/bench/clock`, {
        method,
        headers: {
          authorization: `Bearer ${token}`,
          'idempotency-key': crypto.randomUUID(),
          ...(body ? { 'content-type': 'application/json' } : {}),
        },
        ...(body ? { body: JSON.stringify(body) } : {}),
      });
    await studio.ask('forget times');
    for (let n = 0; n < 40; n += 1) {
      for (const answer of [await send('POST', { garment, operation }), await send('DELETE')])
        if (!answer.ok) throw new Error(`The clock answered ${answer.status}: ${await answer.text()}`);
    }
    times[name] = await studio.ask('server times');
  }
  return ['POST', 'DELETE'].map((method) => {
    const url = `${method} /api/bench/clock`;
    return {
      what: `${method === 'POST' ? 'starting' : 'stopping'} the clock, ${after}`,
      against: 'the same in the demonstration studio',
      ours: median(times.old[url]),
      floor: median(times.demo[url]),
      within: 25,
      note: 'server time, median of 40',
    };
  });
}

/** How much there was, and how long the lesson of it took, beside the server. */
const filledRow = ({ filled, lesson }, after) => ({
  what: `the lesson of ${lesson.garments} closed garments, read and fitted, ${after}`,
  ours: lesson.took,
  note: `${lesson.rows} rows; the file holds ${Object.entries(filled)
    .map(([table, count]) => `${count} ${table}`)
    .join(', ')}`,
});

/** Keeps how SQLite goes about the queries of the main pages, where a scan of a large table would show. */
function writePlans(plans, { filled, filledIn, lesson }) {
  const rows = Object.entries(filled).map(([table, count]) => `${count} ${table}`);
  const pages = Object.entries(plans).map(
    ([path, queries]) =>
      `## ${path}\n\n${queries.map(({ sql, steps }) => `- \`${sql.replaceAll('`', "'")}\`\n${steps.map((step) => `  - ${step}`).join('\n')}`).join('\n')}`,
  );
  writeFileSync(
    fileURLToPath(new URL('PLANS.md', import.meta.url)),
    `# How SQLite goes about the queries of the main pages after ten years

- Written by \`npm run bench\`; never by hand.
- Rows put in from a fixed seed in ${(filledIn / 1000).toFixed(1)} s: ${rows.join(', ')}. The lesson of ${lesson.garments} closed garments (${lesson.rows} rows) was read and fitted in ${(lesson.took / 1000).toFixed(1)} s, beside the server.

${pages.join('\n\n')}
`,
  );
}
