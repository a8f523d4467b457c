import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { canInstallPackages, installPackages } from '../debian.mjs';
import { run } from '../run.mjs';

const keeper = path.join(import.meta.dirname, 'keeper.mjs');
const program = process.platform === 'win32' ? 'postgres.exe' : 'postgres';

/** Folders that may hold PostgreSQL's programs; where several versions stand side by side, newest first. */
function candidates() {
  const versions = (parent, tail = 'bin') => {
    if (!existsSync(parent)) return [];
    const names = readdirSync(parent).filter((name) => /\d/.test(name) || name === 'postgresql');
    names.sort((a, b) => b.localeCompare(a, 'en', { numeric: true }));
    return names.map((name) => path.join(parent, name, tail));
  };
  return [
    ...versions('/usr/lib/postgresql'),
    ...versions('/opt/homebrew/opt').filter((name) => name.includes('postgresql')),
    ...versions('/usr/local/opt').filter((name) => name.includes('postgresql')),
    ...versions('/Applications/Postgres.app/Contents/Versions'),
    ...versions('C:\\Program Files\\PostgreSQL'),
    ...(process.env.PATH ?? '').split(path.delimiter),
  ];
}

/** The folder of PostgreSQL's programs on this machine, or null. */
export const findPostgres = () =>
  candidates().find(
    (folder) =>
      existsSync(path.join(folder, program)) &&
      existsSync(path.join(folder, program.replace('postgres', 'initdb'))),
  ) ?? null;

/** Finds PostgreSQL's programs or installs them (Debian, as root); throws a sentence that says what to do. */
export async function ensurePostgres({ say }) {
  const found = findPostgres();
  if (found) return found;
  if (canInstallPackages()) {
    say('Installing PostgreSQL for the tests …');
    await installPackages(['postgresql-common'], say);
    // The tests bring their own cluster; without this line Debian would also start one of its own.
    await run('sh', [
      '-c',
      "echo 'create_main_cluster = false' >> /etc/postgresql-common/createcluster.conf",
    ]);
    await installPackages(['postgresql'], say);
  }
  const installed = findPostgres();
  if (installed) return installed;
  throw new Error(
    'The storage tests need PostgreSQL. Install its server, or set TEST_POSTGRES_URL to a server whose ' +
      'account may create databases, or leave these tests out with WITHOUT_POSTGRES=1.',
  );
}

/**
 * Starts a PostgreSQL of its own: temporary folder, own port and socket, a password nobody else knows.
 * It ends with `stop`, and also whenever this process ends, however that happens.
 */
export function startPostgres(programs) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [keeper, programs], { detached: true, stdio: 'pipe' });
    const ended = new Promise((done) => child.once('exit', done));
    let complaint = '';
    child.stderr.setEncoding('utf8').on('data', (text) => {
      complaint += text;
    });
    child.once('error', reject);
    child.once('exit', () => reject(new Error(`PostgreSQL did not start.\n${complaint}`)));
    child.stdout.setEncoding('utf8').once('data', (line) => {
      for (const part of [child, child.stdin, child.stdout, child.stderr]) part.unref();
      resolve({
        url: line.trim(),
        stop: () => {
          child.ref();
          child.stdin.end();
          return ended;
        },
      });
    });
  });
}
