import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { expect, it } from 'vitest';
import { root } from './tree.js';

const wrongInTheDomain = `
const later = async (): Promise<number> => 1;
export const all = () => {
  later();
  return [new Date(), Date.now(), Math.random(), parseFloat('1'), Number.parseFloat('1'), Math.round(1)];
};
export const root = Math.sqrt(2), machine = process.pid;
`;

type Linted = { messages: { line: number; ruleId: string | null }[] };

/** What the linter says of a text under a name, in a process of its own, as `npm test` runs it. */
const linesOf = async (words: string, filePath: string): Promise<[number, string | null][]> => {
  const program = join(root, 'node_modules/eslint/bin/eslint.js');
  const linter = spawn(
    process.execPath,
    [program, '--stdin', '--stdin-filename', filePath, '--format', 'json'],
    {
      cwd: root,
      // In one pass over a tree (which it takes CI for) the parser reads the file on disk and not the text it is given.
      env: { ...process.env, TSESTREE_SINGLE_RUN: 'false' },
    },
  );
  linter.stdin.end(words);
  const [said, complaint] = await Promise.all([text(linter.stdout), text(linter.stderr)]);
  if (said.trim() === '') throw new Error(`The linter said nothing: ${complaint}`);
  return (JSON.parse(said) as Linted[]).flatMap(({ messages }) =>
    messages.map((each): [number, string | null] => [each.line, each.ruleId]),
  );
};

it('the bans of the house catch what they name, where they name it', async () => {
  expect(await linesOf(wrongInTheDomain, 'src/domain/kernel/money.ts')).toEqual([
    [4, '@typescript-eslint/no-floating-promises'],
    ...Array.from({ length: 6 }, () => [5, 'no-restricted-syntax']),
    [7, 'no-restricted-syntax'],
    [7, 'no-restricted-globals'],
  ]);
}, 120_000);
