import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesUnder, isWritten, read } from './tree.js';

const longest = 250;
const fullest = 14;
const emptyNames = new Set(
  'manager managers helper helpers util utils utility utilities service services data info handle handler base common misc'.split(
    ' ',
  ),
);

const files = filesUnder('src', 'test', 'templates', '.setup', 'data');
const written = files.filter(isWritten);

/** The words of a file's name. A data source is a thing of its own, and TypeORM's word for it. */
const wordsOf = (name: string): string[] =>
  path.posix
    .basename(name)
    .replace('data-source', 'source')
    .replace(/([a-z])([A-Z])/g, '$1-$2')
    .toLowerCase()
    .split(/[^a-z0-9]+/);

const foldersBelow = (names: string[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const name of names) {
    const folder = path.posix.dirname(name);
    counts.set(folder, (counts.get(folder) ?? 0) + 1);
  }
  return counts;
};

describe('the size of things', () => {
  it(`keeps every written file within ${longest} lines`, () => {
    const lengths = written.map((name) => ({ name, lines: read(name).trimEnd().split('\n').length }));
    expect(lengths.length).toBeGreaterThan(50);
    expect(lengths.filter((each) => each.lines > longest)).toEqual([]);
  });

  it(`keeps at most ${fullest} files in a folder`, () => {
    const crowded = [...foldersBelow(files)].filter(([, count]) => count > fullest);
    expect(crowded).toEqual([]);
  });
});

describe('names', () => {
  it('say what a file is about', () => {
    expect(written.filter((name) => wordsOf(name).some((word) => emptyNames.has(word)))).toEqual([]);
  });

  it('are seen through when they do not', () => {
    expect(wordsOf('src/x/price-helper.ts')).toContain('helper');
    expect(wordsOf('src/x/StringUtils.ts')).toContain('utils');
    expect(wordsOf('src/storage/data-source.ts')).not.toContain('data');
  });
});
