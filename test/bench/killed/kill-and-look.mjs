import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** A row of numbers from a seed, from 0 up to 1: where to kill is by chance, and the same at the next run. */
const numbers = (seed) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
};

/** Starts the built server on a folder of data and waits for its address. */
const startServer = async (folder) => {
  const child = spawn(process.execPath, ['dist/gathered/main.cjs'], {
    cwd: root,
    env: { ...process.env, DATA_DIR: folder, PORT: '0', TIME_ZONE: 'Europe/Dublin', DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const gone = new Promise((resolve) => child.once('exit', resolve));
  const address = await new Promise((resolve, reject) => {
    let told = '';
    const hear = (piece) => {
      told += piece;
      const found = /address: (\S+)\n/.exec(told);
      if (found) resolve(found[1]);
    };
    child.stdout.setEncoding('utf8').on('data', hear);
    child.stderr.setEncoding('utf8').on('data', hear);
    child.once('exit', (code) => reject(new Error(`The server ended with ${code}:\n${told}`)));
  });
  return { address, kill: () => child.kill('SIGKILL') && gone, stop: () => child.kill('SIGTERM') && gone };
};

/**
 * Kills the server under writes, again and again, and looks each time whether all that it acknowledged is there, once.
 *
 * @param studio folder of data with an owner, token, a client, the garment that is worked on, the material that is issued to it,
 *   how much of that was bought, at most 10 (1,000 issues), and the thread that runs out on the way
 * @returns what was acknowledged, what was sent again, and every breach of a promise in words
 */
export async function killAndLook(studio, { times, seed }) {
  const next = numbers(seed);
  const acknowledged = new Map();
  const breaches = [];
  let [sentAgain, unanswered] = [0, []];
  const sendAgain = async (ask, time) => {
    for (const one of unanswered) {
      const answer = await ask('POST', one.path, one.body, one.key);
      sentAgain += 1;
      if (answer.status >= 500) breaches.push(`${time}: sent again, ${one.path} answered ${answer.status}`);
      else if (answer.status < 300 || answer.json?.code === 'already-done') keep(acknowledged, one, answer);
    }
    unanswered = [];
  };
  for (let time = 1; time <= times; time += 1) {
    const server = await startServer(studio.folder);
    const ask = (method, path, body, key) => askOf(server.address, studio.token, method, path, body, key);
    await sendAgain(ask, time);
    breaches.push(...(await look(ask, studio, acknowledged)).map((words) => `${time}: ${words}`));
    const killed = { yet: false };
    const killing = wait(150 + next() * 450).then(() => {
      killed.yet = true;
      return server.kill();
    });
    await Promise.all(
      [0, 1, 2, 3].map(async (lane) => {
        while (!killed.yet) {
          if (lane >= 2) await wait(lane === 2 ? 25 : 40);
          const one = somethingToDo(studio, lane, next);
          try {
            const answer = await ask('POST', one.path, one.body, one.key);
            if (answer.status < 300) keep(acknowledged, one, answer);
            else if (answer.status >= 500) breaches.push(`${time}: ${one.path} answered ${answer.status}`);
          } catch {
            unanswered.push(one);
          }
        }
      }),
    );
    await killing;
  }
  const server = await startServer(studio.folder);
  const ask = (method, path, body, key) => askOf(server.address, studio.token, method, path, body, key);
  // What the last kill left unanswered may have been kept: it is asked for once more before anything is counted.
  await sendAgain(ask, 'at the end');
  breaches.push(...(await look(ask, studio, acknowledged)).map((words) => `at the end: ${words}`));
  await server.stop();
  return { acknowledged: acknowledged.size, sentAgain, breaches };
}

const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

const askOf = async (address, token, method, path, body, key) => {
  const answer = await fetch(address + path, {
    method,
    headers: {
      authorization: `Bearer ${token}`,
      ...(body ? { 'content-type': 'application/json' } : {}),
      ...(key ? { 'idempotency-key': key } : {}),
    },
    ...(body ? { body: JSON.stringify(body) } : {}),
  });
  const text = await answer.text();
  return { status: answer.status, json: text ? JSON.parse(text) : undefined };
};

/** Time by hand, clocks started and stopped, cloth issued, clients and commissions counted on: each under a key of its own. */
const somethingToDo = ({ client, garment, material, thread }, lane, next) => {
  const key = randomUUID();
  if (lane === 0) {
    const minutes = 1 + Math.floor(next() * 50);
    const body = { stage: 'make', minutes, on: '2026-03-01', evenIfOdd: true };
    return { key, kind: 'entry', path: `/api/garments/${garment}/bench-entries`, body };
  }
  if (lane === 1) {
    const start = next() < 0.6;
    const path = start ? '/api/bench/clock' : '/api/bench/clock/stop';
    return { key, kind: 'clock', path, body: start ? { garment, stage: 'baste' } : {} };
  }
  if (lane === 3) {
    if (next() < 0.5)
      return { key, kind: 'client', path: '/api/clients', body: { name: 'Corvin Haddlestone' } };
    const garments = [{ typeId: 'waistcoat', name: 'Waistcoat', make: 'all-hand' }];
    const body = { clientId: client, title: 'A waistcoat', garments };
    return { key, kind: 'commission', path: '/api/commissions', body };
  }
  // Of the thread there is less than is asked for: what goes beyond it is refused, and was never there.
  const isThread = next() < 0.3;
  const body = { kind: 'issue', quantity: '0.01', garment };
  const path = `/api/materials/${isThread ? thread.id : material}/movements`;
  return { key, kind: isThread ? 'thread' : 'issue', path, body };
};

const keep = (acknowledged, one, { json }) =>
  acknowledged.set(one.key, { kind: one.kind, id: one.kind === 'clock' ? json?.kept?.id : json?.id });

/** What was acknowledged and is not there, there twice, or cannot be. */
const look = async (ask, { garment, material, bought, thread }, acknowledged) => {
  const breaches = [];
  const entries = await all(ask, `/api/garments/${garment}/bench-entries`);
  const moved = (await ask('GET', `/api/materials/${material}/movements`)).json.items;
  const threaded = (await ask('GET', `/api/materials/${thread.id}/movements`)).json.items;
  const clients = await all(ask, '/api/clients');
  const commissions = await all(ask, '/api/commissions');
  const kept = [...entries, ...moved, ...threaded, ...clients, ...commissions];
  const there = new Set(kept.map(({ id }) => id));
  // One that was done before the kill and whose answer was lost with the process is there under a key nobody was told.
  const told = [...acknowledged.values()];
  for (const { id, kind } of told)
    if (id && !there.has(id) && (kind !== 'issue' || moved.length < 1000))
      breaches.push(`an acknowledged ${kind} is lost: ${id}`);
  const byHand = entries.filter(({ way }) => way === 'line').length;
  const acknowledgedByHand = told.filter(({ kind }) => kind === 'entry').length;
  if (byHand !== acknowledgedByHand)
    breaches.push(`${byHand} entries by hand, ${acknowledgedByHand} acknowledged`);
  for (const [kind, id, had] of [
    ['issue', material, bought],
    ['thread', thread.id, thread.bought],
  ]) {
    const issues = told.filter((one) => one.kind === kind).length;
    const { lots } = (await ask('GET', `/api/materials/${id}`)).json;
    const lefts = lots.map((lot) => Math.round(Number(lot.left) * 100));
    const left = lefts.reduce((sum, one) => sum + one, 0);
    if (left !== Math.round(had * 100) - issues)
      breaches.push(`${left} hundredths left of ${had}, ${issues} issued`);
    if (lefts.some((one) => one < 0)) breaches.push(`stock below zero: ${lefts.join(', ')}`);
  }
  breaches.push(...unbroken(clients.map(({ code }) => code)));
  breaches.push(...unbroken(commissions.map(({ number }) => number)));
  const clocks = (await ask('GET', '/api/bench/clocks')).json.items.length;
  if (clocks > 1) breaches.push(`${clocks} clocks run for one person`);
  return breaches;
};

/** Numbers of one series, each once and none left out, from the first on; what stands before the counter tells the series. */
const unbroken = (numbers) => {
  const series = new Map();
  for (const number of numbers) {
    const [, before, counter] = /^(.*?)(\d+)$/.exec(number) ?? [undefined, number, '0'];
    series.set(before, [...(series.get(before) ?? []), Number(counter)]);
  }
  return [...series].flatMap(([before, counters]) =>
    counters
      .sort((a, b) => a - b)
      .flatMap((counter, place) =>
        counter === place + 1 ? [] : [`${before}: number ${place + 1} of the series is ${counter}`],
      )
      .slice(0, 1),
  );
};

const all = async (ask, path) => {
  const items = [];
  let after = '';
  do {
    const { json } = await ask('GET', `${path}?limit=100${after ? `&after=${after}` : ''}`);
    items.push(...json.items);
    after = json.next ?? '';
  } while (after);
  return items;
};
