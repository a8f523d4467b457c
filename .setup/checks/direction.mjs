import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { cruise } from 'dependency-cruiser';
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config';
import { inRoot, root } from '../run.mjs';

const { forbidden, options } = createRequire(import.meta.url)('../../.dependency-cruiser.cjs');

/** The names of all rules, so that a test can ask for one planted violation each. */
export const rules = forbidden.map((rule) => rule.name);

/**
 * Reads every import under `src` of a folder.
 *
 * @returns how many source files were read, and one sentence for each import that points the wrong way
 */
export async function readDirection(folder = root) {
  const { tsConfig, doNotFollow, enhancedResolveOptions, ...rest } = options;
  const { output } = await cruise(
    ['src'],
    { ...rest, doNotFollow, baseDir: folder, validate: true, ruleSet: { forbidden } },
    enhancedResolveOptions,
    { tsConfig: extractTSConfig(inRoot(tsConfig.fileName)) },
  );
  const sentences = new Map(forbidden.map((rule) => [rule.name, rule.comment]));
  return {
    files: output.modules.filter((each) => each.source.startsWith('src/')).length,
    wrong: output.summary.violations.map((each) => ({
      rule: each.rule.name,
      sentence: `${each.from} imports ${each.to}.\n  ${sentences.get(each.rule.name)}`,
    })),
  };
}

/** Reads a small source tree, given as path and text, that exists only for as long as it is read. */
export async function readPlanted(files) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'bastings-planted-'));
  try {
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
      writeFileSync(path.join(folder, name), text);
    }
    writeFileSync(path.join(folder, 'package.json'), '{ "devDependencies": { "vitest": "*" } }');
    symlinkSync(inRoot('node_modules'), path.join(folder, 'node_modules'), 'junction');
    return await readDirection(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const countSources = () =>
  readdirSync(inRoot('src'), { recursive: true }).filter((name) => name.endsWith('.ts')).length;

async function check() {
  // A reader that understands nothing finds nothing wrong: first it must catch a mistake made on purpose.
  const planted = await readPlanted({
    'src/domain/price.ts': "import type { Row } from '../storage/row.js';\nexport type Price = Row;\n",
    'src/storage/row.ts': 'export type Row = string;\n',
  });
  if (planted.wrong.length !== 1) return 'The reader missed an import planted the wrong way round.';
  const { files, wrong } = await readDirection();
  if (files < countSources()) return `Only ${files} of ${countSources()} source files were read.`;
  if (wrong.length > 0) return wrong.map((each) => each.sentence).join('\n');
  process.stdout.write(`${files} files, every import points inwards.\n`);
  return '';
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const complaint = await check();
  if (complaint) {
    process.stderr.write(`${complaint}\n`);
    process.exitCode = 1;
  }
}
