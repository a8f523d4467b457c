import { mkdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { DataHome } from '../../storage/connection/data-source.js';
import { moveStudio } from '../../storage/moving/move-studio.js';
import { countInWords } from '../../web/words/counts.js';
import type { Config } from '../config.js';

/**
 * `npm run move -- --to <place>`: the studio's file into PostgreSQL, or with DATABASE_URL set out of it into a file.
 *
 * @param to an address that begins with postgres://, or a file's name
 * @param from the folder the command was typed in
 */
export const move = async (config: Config, to: string, from = process.cwd()): Promise<string[]> => {
  const target: DataHome = /^postgres(ql)?:\/\//.test(to)
    ? { kind: 'postgres', url: to }
    : { kind: 'sqlite', file: resolve(from, to) };
  await mkdir(config.dataDir, { recursive: true, mode: 0o700 });
  const tables = await moveStudio(config.home, target, config.dataDir);
  const rows = tables.reduce((sum, { rows }) => sum + rows, 0);
  return [
    `moved: ${countInWords(rows, 'row')} of ${countInWords(tables.length, 'table')}, each counted and compared by hash`,
    target.kind === 'postgres'
      ? 'Start the studio with DATABASE_URL set to that address. The file stays where it was.'
      : `Start the studio with ${target.file} as the file bastings.sqlite in its DATA_DIR, and without DATABASE_URL.`,
  ];
};
