import { ESLint } from 'eslint';
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

const linesOf = async (text: string, filePath: string): Promise<[number, string | null][]> => {
  const [result] = await new ESLint({ cwd: root }).lintText(text, { filePath });
  return (result?.messages ?? []).map((each) => [each.line, each.ruleId]);
};

it('the bans of the house catch what they name, where they name it', async () => {
  expect(await linesOf(wrongInTheDomain, 'src/domain/kernel/money.ts')).toEqual([
    [4, '@typescript-eslint/no-floating-promises'],
    ...Array.from({ length: 6 }, () => [5, 'no-restricted-syntax']),
    [7, 'no-restricted-syntax'],
    [7, 'no-restricted-globals'],
  ]);
});
