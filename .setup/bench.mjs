import { buildIfStale } from './build.mjs';
import { prepare } from './prepare.mjs';
import { endWithParent, runTool } from './run.mjs';

// Measures the built program against floors (test/bench): `npm run bench`, or one part: `npm run bench -- starts`.
const say = (line) => process.stdout.write(`${line}\n`);

endWithParent();
try {
  await prepare({ say, browser: true });
  await buildIfStale({ say });
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}
const { code } = await runTool('../test/bench/run.mjs', process.argv.slice(2), {
  live: true,
});
process.exit(code);
