import { existsSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import { resolve } from 'node:path';
import { Invalid } from '../../domain/kernel/errors.js';
import { writeExport } from '../../rooms/house/export/write-export.js';
import { type Clock, MachineClock } from '../../storage/clock.js';
import { bringIn } from '../../storage/moving/export/bring-in.js';
import { readExport } from '../../storage/moving/export/export-form.js';
import { countInWords } from '../../web/words/counts.js';
import type { Config } from '../config.js';

const inAll = (tables: readonly { readonly rows: number }[]): string =>
  `${countInWords(
    tables.reduce((sum, { rows }) => sum + rows, 0),
    'row',
  )} of ${countInWords(tables.length, 'table')}, each table counted and compared by hash`;

/** `npm run export -- <file>`: everything as open files in one archive, the server running or not. */
export const carryOut = async (
  config: Config,
  file: string,
  from = process.cwd(),
  clock: Clock = new MachineClock(),
): Promise<string[]> => {
  if (config.home.kind === 'sqlite' && !existsSync(config.home.file))
    throw new Invalid(`There is nothing to export yet: no file ${config.home.file}.`);
  const to = resolve(from, file);
  if (existsSync(to)) throw new Invalid(`There is a file ${to} already. Give another name.`);
  const unfinished = `${to}.unfinished`;
  await mkdir(config.dataDir, { recursive: true, mode: 0o700 });
  try {
    await rm(unfinished, { force: true });
    await writeExport(config.home, config.dataDir, unfinished, clock);
    const { manifest } = await readExport(unfinished);
    await rename(unfinished, to);
    return [`export: ${to}`, `checked: ${inAll(manifest.tables)}`];
  } finally {
    await rm(unfinished, { force: true });
  }
};

/** `npm run import -- <file>`: an export into a place where there is no studio yet. */
export const carryIn = async (
  config: Config,
  file: string,
  from = process.cwd(),
  clock: Clock = new MachineClock(),
): Promise<string[]> => {
  await mkdir(config.dataDir, { recursive: true, mode: 0o700 });
  const tables = await bringIn(config.home, resolve(from, file), clock.now());
  return [
    `brought in: ${inAll(tables)}`,
    'Sign in with the passphrase of the studio it came from. Phones, programs and the calendar get new keys.',
  ];
};
