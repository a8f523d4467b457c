import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesUnder, isWritten, read, root } from './tree.js';

const everything = filesUnder('.').filter(
  (name) => !/\.(woff2?|png|jpe?g|webp|pdf|sqlite\S*|ico|log|tsbuildinfo)$/.test(name),
);

const linesWith = (names: string[], isWrong: (line: string) => boolean): string[] =>
  names.flatMap((name) =>
    read(name)
      .split('\n')
      .flatMap((line, index) => (isWrong(line) ? [`${name}:${index + 1}`] : [])),
  );

/** Handlebars writes a value as it stands in two spellings; both let text become markup. */
const isRaw = (line: string): boolean => /\{\{\{|\{\{~?&/.test(line);

const isUnfinished = (line: string): boolean => /\b(TO[D]O|FIX[M]E)\b/.test(line);

/** Some server for packages, whichever: in a name of its own or in a lock file's address of an archive. */
const isRegistry = (line: string): boolean =>
  /\bregistry\.[a-z0-9-]+\.[a-z]{2,}\b|"resolve[d]": "http/i.test(line);

const isMachinePath = (line: string): boolean =>
  /(^|[\s"'`(=:])(\/home\/[a-z]|\/Users\/[A-Za-z]|\/root\/|[A-Z]:\\Users\\)/.test(line) ||
  line.includes(`${root}${path.sep}`) ||
  line.includes('../' + 'shared/');

describe('templates', () => {
  const templates = filesUnder('templates').filter((name) => name.endsWith('.hbs'));

  it('place words, never markup, outside the layouts', () => {
    expect(templates.length).toBeGreaterThan(0);
    const inside = templates.filter((name) => !name.startsWith('templates/layouts/'));
    expect(linesWith(inside, isRaw)).toEqual([]);
  });

  it('are seen through in both spellings', () => {
    expect(['{{{ note }}}', '{{& note }}', '{{~& note }}', '{{{{raw}}}}'].map(isRaw)).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect(isRaw('{{ note }} {{#if a}} &amp;')).toBe(false);
  });
});

describe('every file', () => {
  it('is finished', () => {
    expect(linesWith(everything.filter(isWritten), isUnfinished)).toEqual([]);
  });

  it('names no server for packages', () => {
    expect(isRegistry(`https://${['registry', 'example', 'org'].join('.')}/a`)).toBe(true);
    expect(linesWith(everything, isRegistry)).toEqual([]);
  });

  it('names no path of the machine it was written on', () => {
    expect(isMachinePath(`see ${path.join(root, 'src')}`)).toBe(true);
    expect(isMachinePath(`from ${['', 'home', 'odalys'].join('/')}/bastings`)).toBe(true);
    expect(everything.length).toBeGreaterThan(100);
    expect(linesWith(everything, isMachinePath)).toEqual([]);
  });
});
