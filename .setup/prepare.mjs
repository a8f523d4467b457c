import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { canInstallPackages, installPackages } from './debian.mjs';
import { inRoot, run, runNpm, runTool, withoutAddresses } from './run.mjs';

const lockFile = inRoot('package-lock.json');
const stampFile = inRoot('node_modules', '.installed-from');

const lockMark = () => createHash('sha256').update(readFileSync(lockFile)).digest('hex');

/** Whether node_modules was installed from the lock file as it is now. */
export function isInstalled() {
  if (!existsSync(stampFile)) return adoptInstallation();
  return readFileSync(stampFile, 'utf8') === lockMark();
}

/** An installation made by hand (`npm install`) carries no stamp, but npm's own record tells its age. */
function adoptInstallation() {
  const record = inRoot('node_modules', '.package-lock.json');
  if (!existsSync(record) || statSync(record).mtimeMs < statSync(lockFile).mtimeMs) return false;
  writeFileSync(stampFile, lockMark());
  return true;
}

/**
 * Makes the machine ready: packages, the database driver, and where asked for a browser and PostgreSQL.
 * Quick when nothing is missing. Throws when the work cannot go on.
 *
 * @param patient false: answers while the driver is still being compiled, for whoever has other work meanwhile
 * @returns the browser's path, or null when there is none; and the driver, to be waited for
 */
export async function prepare({ say, browser = false, postgres = false, patient = true }) {
  if (!isInstalled()) await installDependencies(say);
  // Compiling keeps one core busy for a minute or two; what is fetched from the system meanwhile costs none.
  const { compiling } = await ensureSqlite(say);
  const found = browser ? await findOrInstallBrowser(say) : null;
  if (postgres) {
    const { ensurePostgres } = await import('./postgres/server.mjs');
    await ensurePostgres({ say });
  }
  if (patient) await compiling;
  return { browser: found, driver: compiling };
}

async function findOrInstallBrowser(say) {
  const { ensureBrowser } = await import('./browser.mjs');
  return (await ensureBrowser({ say })) ?? null;
}

async function installDependencies(say) {
  say('Installing the packages this project is built from …');
  // Install scripts stay off: npm 10 would run all of them, npm 12 none. The one that is needed runs below.
  const manner = ['--ignore-scripts', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'];
  const fresh = !existsSync(inRoot('node_modules', '.package-lock.json'));
  const { code, output } = await runNpm([...(fresh ? ['ci'] : ['install', '--no-save']), ...manner]);
  if (code !== 0) throw new Error(`npm could not install the packages.\n${withoutAddresses(output)}`);
  writeFileSync(stampFile, lockMark());
}

const loads = async () =>
  (await run(process.execPath, ['-e', "new (require('sqlite3').Database)(':memory:')"])).code === 0;

/** Proves that the driver loads, or gets it; where it must be compiled, answers while that is under way. */
async function ensureSqlite(say) {
  if (await loads()) return { compiling: null };
  await runTool('prebuild-install/bin.js', ['-r', 'napi'], { cwd: inRoot('node_modules', 'sqlite3') });
  if (await loads()) return { compiling: null };
  await ensureCompiler(say);
  const compiling = compileSqlite(say);
  // Whoever waits for it hears of a failure; until somebody does, it must not end the process.
  compiling.catch(() => {});
  return { compiling };
}

async function compileSqlite(say) {
  say('Compiling the SQLite driver (about a minute and a half) …');
  const { output } = await runTool('node-gyp/bin/node-gyp.js', ['rebuild', ...ownHeaders()], {
    cwd: inRoot('node_modules', 'sqlite3'),
    env: { JOBS: 'max' },
  });
  if (!(await loads())) throw new Error(`The SQLite driver does not load.\n${withoutAddresses(output)}`);
}

/** Where Node came with its headers, compiling needs no download. */
function ownHeaders() {
  const prefix = path.resolve(path.dirname(process.execPath), '..');
  return existsSync(path.join(prefix, 'include', 'node', 'node.h')) ? [`--nodedir=${prefix}`] : [];
}

async function ensureCompiler(say) {
  if (process.platform === 'win32') return;
  const missing = [];
  for (const program of ['python3', 'make', 'g++']) {
    if ((await run(program, ['--version'])).code !== 0) missing.push(program);
  }
  if (missing.length === 0) return;
  if (!canInstallPackages()) {
    throw new Error(
      `The SQLite driver must be compiled. Please install ${missing.join(', ')} and try again.`,
    );
  }
  say(`Installing what compiling needs: ${missing.join(', ')} …`);
  await installPackages(missing, say);
}
