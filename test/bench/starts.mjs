import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { interleaved, median, quantile } from './measure.mjs';

const ROUNDS = 11;
const root = fileURLToPath(new URL('../..', import.meta.url));

/** What a process started, where the system tells. */
const childrenOf = (pid) => {
  const told = `/proc/${pid}/task/${pid}/children`;
  return existsSync(told) ? readFileSync(told, 'utf8').trim().split(' ').filter(Boolean).length : 0;
};

/** Starts a program, waits for its address and for its first answer, and ends it. */
const startOnce = async (script, env = {}) => {
  const from = performance.now();
  const child = spawn(process.execPath, [join(root, script)], {
    cwd: root,
    env: { ...process.env, PORT: '0', npm_lifecycle_event: '', ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const gone = new Promise((resolve) => child.once('exit', resolve));
  const address = await new Promise((resolve, reject) => {
    let told = '';
    child.stdout.setEncoding('utf8').on('data', (piece) => {
      told += piece;
      const found = /address: (\S+)\n/.exec(told);
      if (found) resolve(found[1]);
    });
    child.once('exit', (code) => reject(new Error(`${script} ended with ${code}:\n${told}`)));
  });
  const answer = await fetch(`${address}/`, { redirect: 'manual' });
  await answer.text();
  const time = performance.now() - from;
  if (answer.status >= 400) throw new Error(`${script} answered ${answer.status}.`);
  const children = childrenOf(child.pid);
  child.kill('SIGTERM');
  await gone;
  return { time, children };
};

/** `npm start` without npm, and the second `npm run demo`, each against an empty Nest on Fastify. */
export async function measureStarts() {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-starts-'));
  const studio = { DATA_DIR: join(folder, 'studio') };
  const demo = { DATA_DIR: join(folder, 'demo') };
  let children = 0;
  const ours = async (script, env) => {
    const started = await startOnce(script, env);
    children = Math.max(children, started.children);
    return started.time;
  };
  try {
    // Loading prints the demonstration's quotes, so a browser is right there and not counted.
    const first = (await startOnce('.setup/demo.mjs', demo)).time;
    const times = await interleaved(
      {
        start: () => ours('.setup/start.mjs', studio),
        empty: () => ours('test/bench/empty-nest.mjs'),
        demo: () => ours('.setup/demo.mjs', demo),
      },
      { rounds: ROUNDS, warmUp: 1 },
    );
    const p95 = (name) => quantile(times[name], 0.95).toFixed(0);
    return [
      {
        what: 'npm start to its first answer',
        against: 'an empty Nest on Fastify to its first answer',
        ours: median(times.start),
        floor: median(times.empty),
        most: 2.2,
        note: `median of ${ROUNDS} processes each, npm itself left out of both; p95 ${p95('start')} and ${p95('empty')} ms`,
      },
      {
        what: 'npm run demo, second time',
        against: 'the same empty Nest',
        ours: median(times.demo),
        floor: median(times.empty),
        note: `median of ${ROUNDS}; the first time, which loads the studio, ${first.toFixed(0)} ms`,
      },
      {
        what: 'programs started by a server that starts',
        count: children,
        note: existsSync('/proc/self/task')
          ? 'children of every server above but the loading one, as the system tells'
          : 'not told here',
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
