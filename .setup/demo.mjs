import { createServer } from 'node:net';
import { buildIfStale, runMain } from './build.mjs';
import { prepare } from './prepare.mjs';
import { endWithParent } from './run.mjs';

const say = (line) => process.stdout.write(`${line}\n`);

const isFree = (port, host) =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen({ port, host, exclusive: true }, () => probe.close(() => resolve(true)));
  });

async function firstFreePort(from, host) {
  for (let port = from; port < from + 100; port += 1) {
    if (await isFree(port, host)) return port;
  }
  throw new Error(`No free port between ${from} and ${from + 99}. Choose one: PORT=8080 npm run demo`);
}

endWithParent();
try {
  await prepare({ say, browser: true });
  await buildIfStale({ say });
  process.env.PORT ||= String(await firstFreePort(4410, process.env.HOST || '127.0.0.1'));
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}
process.env.BASTINGS_MODE = 'demo';
process.env.DATA_DIR ||= 'data/demo-studio';
if (process.argv.includes('--fresh')) process.env.BASTINGS_FRESH = '1';
await runMain();
