import { buildIfStale } from './build.mjs';
import { isInstalled, prepare } from './prepare.mjs';
import { inRoot } from './run.mjs';

// Runs one of the studio's commands (src/app/commands) on its data: `node .setup/command.mjs backup`.
const say = (line) => process.stdout.write(`${line}\n`);

try {
  if (!isInstalled()) await prepare({ say });
  await buildIfStale({ say });
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}
process.argv[1] = inRoot('dist', 'app', 'commands', 'command.js');
await import(new URL('../dist/app/commands/command.js', import.meta.url));
