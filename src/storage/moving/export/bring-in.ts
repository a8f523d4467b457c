import { existsSync } from 'node:fs';
import { rename } from 'node:fs/promises';
import { DataSource } from 'typeorm';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { mustBeNobodys } from '../../backup/in-use.js';
import { stampOf } from '../../backup/restore.js';
import { type DataHome, openForReading, optionsOf } from '../../connection/data-source.js';
import { fillEmptyHome } from '../move-studio.js';
import { putRows, type TableDigest, tablesOf } from '../portable-rows.js';
import { readExport } from './export-form.js';

/** What setting up a program leaves before the house is opened: its owner, their sign-in, and that this was done. */
const BEFORE_THE_HOUSE = new Set(['account', 'person', 'sign_in_session', 'act', 'change', 'once']);

/**
 * Brings an export into a place where no house was opened yet. A program that was only set up is put aside, not lost.
 *
 * @throws Invalid when there is a studio already, or the file is no export; Conflict while the server runs. Nothing is changed then
 */
export const bringIn = async (home: DataHome, file: string, at: Instant): Promise<readonly TableDigest[]> => {
  const { manifest, rows } = await readExport(file);
  const fill = () =>
    fillEmptyHome(home, manifest.tables, async (manager) => {
      const going = new Set(manifest.tables.map(({ table }) => table));
      for (const table of tablesOf(manager.connection))
        if (going.has(table.tableName)) await putRows(manager, table, rows(table.tableName));
    });
  const putBack = await putAside(home, at);
  try {
    await fill();
  } catch (error) {
    await putBack();
    throw error;
  }
  return manifest.tables;
};

/** Makes room where nothing but a set-up stands; answers how to put it back. */
const putAside = async (home: DataHome, at: Instant): Promise<() => Promise<void>> => {
  if (home.kind === 'sqlite') {
    const { file } = home;
    if (!existsSync(file)) return async () => undefined;
    await mustBeNobodys(home, 'bring it in again');
    await mustBeUnopened(await openForReading(home));
    const aside = file.replace(/(\.sqlite)?$/, `-replaced-${stampOf(at)}.sqlite`);
    await rename(file, aside);
    return () => rename(aside, file);
  }
  const source = await new DataSource(optionsOf(home)).initialize();
  const [{ many }] = await source.query(
    "SELECT count(*)::int AS many FROM information_schema.tables WHERE table_schema = 'public'",
  );
  await source.destroy();
  if (many === 0) return async () => undefined;
  await mustBeNobodys(home, 'bring it in again');
  await mustBeUnopened(await openForReading(home));
  const aside = `replaced_${at.slice(0, 19).replaceAll(/\D/g, '')}`;
  const say = async (...statements: readonly string[]): Promise<void> => {
    const speaking = await new DataSource(optionsOf(home)).initialize();
    for (const statement of statements) await speaking.query(statement);
    await speaking.destroy();
  };
  await say(`ALTER SCHEMA public RENAME TO ${aside}`, 'CREATE SCHEMA public');
  return () => say('DROP SCHEMA public CASCADE', `ALTER SCHEMA ${aside} RENAME TO public`);
};

/** Ends the connection it is given. @throws Invalid */
const mustBeUnopened = async (source: DataSource): Promise<void> => {
  try {
    for (const { tableName } of tablesOf(source)) {
      if (BEFORE_THE_HOUSE.has(tableName)) continue;
      const [row] = await source.query(`SELECT id FROM "${tableName}" LIMIT 1`);
      if (row)
        throw new Invalid(
          'There is a studio in that place already, so nothing was brought in. Give DATA_DIR an empty folder.',
          [],
          'not-empty',
        );
    }
  } finally {
    await source.destroy();
  }
};
