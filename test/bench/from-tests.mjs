import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A module of the tests, compiled and standing on the built program instead of its source. */
export const fromTests = async (name) => {
  const { outputText } = ts.transpileModule(readFileSync(join(root, name), 'utf8'), {
    compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023 },
  });
  const folder = join(root, '.cache', 'bench');
  mkdirSync(folder, { recursive: true });
  const compiled = join(folder, basename(name).replace(/\.ts$/, '.mjs'));
  writeFileSync(
    compiled,
    outputText.replaceAll('../../../src/', '../../dist/').replaceAll('../../../templates', '../../templates'),
  );
  return import(pathToFileURL(compiled).href);
};
