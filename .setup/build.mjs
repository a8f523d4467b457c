import { existsSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { inRoot, runTool } from './run.mjs';

export const mainFile = inRoot('dist', 'main.js');
const stampFile = inRoot('dist', '.built');

/** The latest change under src, folders included (a removed file changes only its folder), in milliseconds. */
function lastChange() {
  let latest = 0;
  const see = (name) => {
    latest = Math.max(latest, statSync(name).mtimeMs);
  };
  const walk = (folder) => {
    see(folder);
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const name = path.join(folder, entry.name);
      if (entry.isDirectory()) walk(name);
      else see(name);
    }
  };
  walk(inRoot('src'));
  for (const name of ['tsconfig.json', 'tsconfig.build.json', 'nest-cli.json', 'package-lock.json']) {
    see(inRoot(name));
  }
  return latest;
}

export const isBuilt = () =>
  existsSync(mainFile) && existsSync(stampFile) && statSync(stampFile).mtimeMs >= lastChange();

/** Builds and answers like `run`. The stamp bears the moment of the beginning: a later edit counts as newer. */
export async function build() {
  const begun = new Date();
  const built = await runTool('@nestjs/cli/bin/nest.js', ['build']);
  if (built.code === 0 && !existsSync(mainFile)) {
    return { code: 1, output: `${built.output}\nThe build left no dist/main.js.\n` };
  }
  if (built.code === 0) {
    // Loaded only here: a start that needs no build should not wait for the builder.
    const { gather } = await import('./gather.mjs');
    await gather();
    writeFileSync(stampFile, '');
    utimesSync(stampFile, begun, begun);
  }
  return built;
}

export async function buildIfStale({ say }) {
  if (isBuilt()) return;
  say('Building …');
  const { code, output } = await build();
  if (code !== 0) throw new Error(`The build failed.\n${output}`);
}

/** Runs the built server in this very process: its output, its signals and its end are this one's. */
export async function runMain() {
  process.argv[1] = mainFile;
  await import(new URL('../dist/gathered/main.cjs', import.meta.url));
}
