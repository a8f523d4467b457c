import http from 'node:http';
import { startChild } from './child.mjs';
import { interleaved, median, quantile } from './measure.mjs';

const ROUNDS = 800;
const WARM_UP = 250;

/** Asks one address over one connection that stays open; answers with the body. */
const asking = (address, path, headers = {}) => {
  const agent = new http.Agent({ keepAlive: true, maxSockets: 1 });
  const ask = () =>
    new Promise((resolve, reject) => {
      http
        .get(`${address}${path}`, { agent, headers }, (answer) => {
          let body = '';
          answer.setEncoding('utf8').on('data', (piece) => {
            body += piece;
          });
          answer.on('end', () => {
            if (answer.statusCode === 200) resolve(body);
            else reject(new Error(`${path} answered ${answer.statusCode}: ${body.slice(0, 300)}`));
          });
        })
        .on('error', reject);
    });
  const time = async () => {
    const from = performance.now();
    await ask();
    return performance.now() - from;
  };
  return { ask, time, leave: () => agent.destroy() };
};

const bare = (html) =>
  html
    .replaceAll(/nonce="[^"]*"/g, 'nonce=""')
    .replaceAll(/content="[^"]*" name="csp-nonce"|name="csp-nonce" content="[^"]*"/g, '');

/** The page, the sum, and whether a browser was started for either. */
export async function measurePages() {
  const studio = await startChild('studio.mjs');
  const { address, cookie, token, garment, words } = studio.ready;
  const floor = await startChild('floor-page.mjs', { told: words });
  try {
    const page = await measurePage(studio, floor, { address, cookie });
    const sum = await measureSum(studio, { address, token, garment });
    return [...page, ...sum, await isBrowserRunning(studio)];
  } finally {
    await Promise.all([studio.stop(), floor.stop()]);
  }
}

async function measurePage(studio, floor, { address, cookie }) {
  const ours = asking(address, '/clients', { cookie });
  const theirs = asking(floor.ready.address, '/clients');
  const [one, other] = [bare(await ours.ask()), bare(await theirs.ask())];
  if (one !== other)
    throw new Error(`The two pages differ, so their times cannot be compared:\n${one}\n----\n${other}`);
  if (one.split('<tr').length < 21) throw new Error('The page has no twenty rows.');
  await interleaved({ ours: ours.time, theirs: theirs.time }, { rounds: WARM_UP });
  const [busyBefore, floorBefore] = [await studio.ask('processor'), await floor.ask('processor')];
  const times = await interleaved({ ours: ours.time, theirs: theirs.time }, { rounds: ROUNDS });
  const busy = ((await studio.ask('processor')) - busyBefore) / ROUNDS;
  const floorBusy = ((await floor.ask('processor')) - floorBefore) / ROUNDS;
  ours.leave();
  theirs.leave();
  return [
    {
      what: 'page of 20 rows, signed in',
      against: 'bare Fastify, same template, same words',
      ours: median(times.ours),
      floor: median(times.theirs),
      most: 1.5,
      note: `median of ${ROUNDS} requests each over one connection; p95 ${quantile(times.ours, 0.95).toFixed(2)} and ${quantile(times.theirs, 0.95).toFixed(2)} ms`,
    },
    {
      what: 'the same page, processor time',
      against: 'the same floor, processor time',
      ours: busy,
      floor: floorBusy,
      note: 'of the server process alone, a request',
    },
  ];
}

async function measureSum(studio, { address, token, garment }) {
  const headers = { authorization: `Bearer ${token}` };
  const url = `/api/garments/${garment}/cost-sheet`;
  const sum = asking(address, url, headers);
  const nothing = asking(address, '/api/nothing', headers);
  await interleaved({ sum: sum.time, nothing: nothing.time }, { rounds: WARM_UP });
  await studio.ask('forget times');
  await interleaved({ sum: sum.time, nothing: nothing.time }, { rounds: ROUNDS });
  const times = await studio.ask('server times');
  const before = await studio.ask('processor');
  for (let n = 0; n < ROUNDS / 4; n += 1) await sum.time();
  const busy = ((await studio.ask('processor')) - before) / (ROUNDS / 4);
  for (let n = 0; n < ROUNDS / 4; n += 1) await nothing.time();
  const floorBusy = ((await studio.ask('processor')) - before) / (ROUNDS / 4) - busy;
  sum.leave();
  nothing.leave();
  return [
    {
      what: 'sum of a garment of 35 operations',
      against: 'an empty API route of the same server',
      ours: median(times[url]),
      floor: median(times['/api/nothing']),
      within: 30,
      note: `server time, median of ${ROUNDS}; p95 ${quantile(times[url], 0.95).toFixed(2)} and ${quantile(times['/api/nothing'], 0.95).toFixed(2)} ms`,
    },
    {
      what: 'the same sum, processor time',
      against: 'the same empty route, processor time',
      ours: busy,
      floor: floorBusy,
      within: 30,
      note: `of the server process alone, a request, over ${ROUNDS / 4}`,
    },
  ];
}

const isBrowserRunning = async (studio) => ({
  what: 'browsers before the first paper',
  count: (await studio.ask('is a browser running')) ? 1 : 0,
  note: 'asked of the printer after all the requests above',
});
