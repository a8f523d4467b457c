#!/usr/bin/env node
// The program as it is installed from its archive: `bastings` serves the studio, `bastings demo` the demonstration, and every
// other word is one of the studio's commands. Plain Node: what it needs was built before the archive was packed.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const root = new URL('../../', import.meta.url);
const [word, ...rest] = process.argv.slice(2);

const driverLoads = () => {
  try {
    createRequire(import.meta.url)('sqlite3');
    return true;
  } catch {
    return false;
  }
};

const run = (file, args) => {
  process.argv = [process.argv[0], new URL(file, root).pathname, ...args];
  return import(new URL(file, root));
};

const serve = () => run('dist/gathered/main.cjs', []);

if (word === '--version') {
  const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));
  process.stdout.write(`${version}\n`);
} else if (!driverLoads()) {
  process.stderr.write(
    'The SQLite driver is not built yet. Say this once where the program is installed: npm rebuild sqlite3\n',
  );
  process.exitCode = 1;
} else if (word === undefined || word === 'serve') {
  await serve();
} else if (word === 'demo') {
  process.env.BASTINGS_MODE = 'demo';
  process.env.DATA_DIR ||= 'data/demo-studio';
  if (rest.includes('--fresh')) process.env.BASTINGS_FRESH = '1';
  await serve();
} else {
  await run('dist/app/commands/command.js', [word, ...rest]);
}
