import { readdirSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { installedPackages } from '../../.setup/checks/packages.mjs';
import { filesUnder, read } from './tree.js';

/* What is installed with the program: under which licences, and nothing that nobody asks for. */

/** Licences that let a program be used and passed on without opening it. */
const PERMITTED =
  /^(MIT|MIT-0|ISC|BSD-2-Clause|BSD-3-Clause|0BSD|Apache-2\.0|BlueOak-1\.0\.0|CC0-1\.0|Unlicense|OFL-1\.1|Python-2\.0|Zlib)$/;
/** Asked for by others at run time, never imported by name. */
const ASKED_FOR_BY_OTHERS: Readonly<Record<string, string>> = {
  '@fontsource/source-sans-3': 'served by src/app/assets.ts',
  '@fontsource/source-serif-4': 'served by src/app/assets.ts',
  sqlite3: 'loaded by TypeORM and by the guard of its driver',
  pg: 'loaded by TypeORM',
  '@types/node': 'types',
  '@types/pg': 'types',
  '@nestjs/cli': 'run by .setup/build.mjs',
  typescript: 'run by .setup/checks',
  vite: 'runs vitest',
  eslint: 'run by .setup/checks',
  '@biomejs/biome': 'run by .setup/checks',
};

const wanted = JSON.parse(read('package.json')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;
const installed = installedPackages();

const isPermitted = (licence: string): boolean =>
  licence
    .replaceAll(/[()]/g, '')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => PERMITTED.test(one)));

describe('every package that is installed with the program', () => {
  it('may be passed on with it, as it says itself', () => {
    expect(installed.length).toBeGreaterThan(100);
    expect(installed.filter(({ licence }) => !isPermitted(licence))).toEqual([]);
    expect(isPermitted('GPL-3.0')).toBe(false);
    expect(isPermitted('MIT AND GPL-2.0')).toBe(false);
  });

  it('stands in data/security/packages.csv with its licence (node .setup/checks/packages.mjs writes it)', () => {
    const listed = parse(read('data/security/packages.csv'), { columns: true }) as typeof installed;
    const told = new Map(listed.map((one) => [`${one.name}@${one.version}`, one.licence]));
    const missing = installed.filter(
      ({ name, version, licence }) => told.get(`${name}@${version}`) !== licence,
    );
    expect(missing).toEqual([]);
  });
});

describe('every package that is asked for', () => {
  const texts = filesUnder('src', 'test', '.setup', 'templates')
    .filter((name) => /\.(ts|mjs|cjs|js)$/.test(name))
    .map(read);
  const roots = readdirSync('.')
    .filter((name) => /\.(ts|mjs|cjs|js|json)$/.test(name) && !name.startsWith('package'))
    .map(read);
  const all = [...texts, ...roots].join('\n');

  it.each(['dependencies', 'devDependencies'] as const)('among %s is used', (kind) => {
    const unused = Object.keys(wanted[kind]).filter(
      (name) =>
        !(name in ASKED_FOR_BY_OTHERS) &&
        !all.includes(`'${name}'`) &&
        !all.includes(`'${name}/`) &&
        !all.includes(`"${name}`),
    );
    expect(unused).toEqual([]);
  });

  it('by the program itself is installed with it', () => {
    const own = filesUnder('src')
      .filter((name) => name.endsWith('.ts'))
      .map(read)
      .join('\n');
    const imported = [...own.matchAll(/from '((?:@[\w.-]+\/)?[\w.-]+)(?:\/[^']*)?';/g)].map(
      ([, name]) => name!,
    );
    const foreign = new Set(imported.filter((name) => !name.startsWith('.') && !name.startsWith('node:')));
    expect(foreign.size).toBeGreaterThan(15);
    expect([...foreign].filter((name) => !(name in wanted.dependencies))).toEqual([]);
  });
});
