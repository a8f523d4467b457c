import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { text } from 'node:stream/consumers';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { root } from './tree.js';

const wrongAnywhere = `
const later = async (): Promise<number> => 1;
export const all = () => {
  later();
  return [new Date(), Date.now(), Math.random(), parseFloat('1'), Number.parseFloat('1'), Math.round(1)];
};
export const root = Math.sqrt(2), machine = process.pid;
`;
/** Put together here, so that this file itself holds no test that waits. */
const wrongInATest = `import { it } from 'vitest';\n${['it', 'skip'].join('.')}('waits', () => {});\n`;

type Linted = { filePath: string; messages: { line: number; ruleId: string | null }[] };
type Found = [line: number, rule: string | null];

/** The house's own rules over a small tree of its own: the rules that need types read this tree and not the whole house. */
const linesOf = async (files: Record<string, string>): Promise<Record<string, Found[]>> => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'bastings-banned-')));
  const house = JSON.stringify(pathToFileURL(join(root, 'eslint.config.js')).href);
  const planted: Record<string, string> = {
    ...files,
    'tsconfig.json': JSON.stringify({
      extends: join(root, 'tsconfig.json'),
      compilerOptions: { types: [] },
      include: ['**/*.ts'],
    }),
    'eslint.config.mjs': `import house from ${house};
export default [...house, { files: ['**/*.ts'], languageOptions: { parserOptions: { tsconfigRootDir: import.meta.dirname } } }];`,
  };
  try {
    for (const [name, words] of Object.entries(planted)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), words);
    }
    const program = join(root, 'node_modules/eslint/bin/eslint.js');
    const linter = spawn(process.execPath, [program, '.', '--format', 'json'], { cwd: folder });
    const [said, complaint] = await Promise.all([text(linter.stdout), text(linter.stderr)]);
    if (said.trim() === '') throw new Error(`The linter said nothing: ${complaint}`);
    return Object.fromEntries(
      (JSON.parse(said) as Linted[]).map(({ filePath, messages }) => [
        relative(folder, filePath).replaceAll('\\', '/'),
        messages.map((each): Found => [each.line, each.ruleId]),
      ]),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const times = (count: number, line: number, rule = 'no-restricted-syntax'): Found[] =>
  Array.from({ length: count }, () => [line, rule]);
const forgotten: Found = [4, '@typescript-eslint/no-floating-promises'];

it('the bans of the house catch what they name, where they name it', async () => {
  expect(
    await linesOf({
      'src/domain/kernel/money.ts': wrongAnywhere,
      'src/domain/estimating/draws.ts': wrongAnywhere,
      'src/storage/clock.ts': wrongAnywhere,
      'src/rooms/bench/bench.ts': wrongAnywhere,
      'test/rooms/bench.test.ts': wrongAnywhere + wrongInATest,
    }),
  ).toEqual({
    'src/domain/kernel/money.ts': [
      forgotten,
      ...times(6, 5),
      ...times(1, 7),
      ...times(1, 7, 'no-restricted-globals'),
    ],
    'src/domain/estimating/draws.ts': [forgotten, ...times(6, 5), ...times(1, 7, 'no-restricted-globals')],
    'src/storage/clock.ts': [forgotten, ...times(4, 5)],
    'src/rooms/bench/bench.ts': [forgotten, ...times(6, 5)],
    'test/rooms/bench.test.ts': [forgotten, ...times(3, 5), ...times(1, 9)],
  });
}, 120_000);
