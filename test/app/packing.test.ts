import { execFileSync } from 'node:child_process';
import { beforeAll, describe, expect, it } from 'vitest';
import { filesUnder, root } from '../architecture/tree.js';

let packed: string[];

beforeAll(() => {
  const told = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
    maxBuffer: 64 * 1024 * 1024,
    shell: process.platform === 'win32',
  });
  // Either a list of archives or archives by name: npm changed its mind about it between two of its versions.
  const [archive] = Object.values(JSON.parse(told) as Record<string, { files: { path: string }[] }>);
  packed = archive?.files.map((file) => file.path).sort() ?? [];
}, 180_000);

/** What is packed and belongs to the making of the program, or to somebody's studio. */
const strays = (names: readonly string[]): string[] =>
  names.filter(
    (name) =>
      /^(test|src|node_modules|\.(ci|pictures|cache|git))\//.test(name) ||
      /^data\/(studio|demo-studio|backups)\//.test(name) ||
      (name.startsWith('.setup/') && name !== '.setup/release/bastings.mjs') ||
      /\.(map|ts|sqlite.*|log)$/.test(name),
  );

describe('the archive', () => {
  it('carries the built program and how to start it', () => {
    expect(packed).toEqual(
      expect.arrayContaining([
        'package.json',
        'README.md',
        '.setup/release/bastings.mjs',
        'dist/gathered/main.cjs',
        'dist/gathered/NOTICES.txt',
        'dist/app/commands/command.js',
        'data/release/bastings.service',
      ]),
    );
  });

  it('carries every template, style, face and starting value', () => {
    const wanted = filesUnder('templates', 'data');
    expect(wanted.length).toBeGreaterThan(100);
    expect(wanted.filter((name) => !packed.includes(name))).toEqual([]);
  });

  it('carries no test, no source and nobody’s records', () => {
    expect(strays(packed)).toEqual([]);
    expect(
      strays(['test/a.test.ts', 'dist/a.js', 'data/studio/bastings.sqlite', '.setup/check.mjs']),
    ).toHaveLength(3);
  });
});
