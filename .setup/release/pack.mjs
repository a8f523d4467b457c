// Before `npm pack`: the archive carries the built program, so it is built first.
import { buildIfStale } from '../build.mjs';

try {
  await buildIfStale({ say: (line) => process.stderr.write(`${line}\n`) });
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
