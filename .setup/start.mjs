import { buildIfStale, runMain } from './build.mjs';
import { isInstalled, prepare } from './prepare.mjs';
import { endWithParent } from './run.mjs';

const say = (line) => process.stdout.write(`${line}\n`);

endWithParent();
try {
  if (!isInstalled()) await prepare({ say });
  await buildIfStale({ say });
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}
await runMain();
