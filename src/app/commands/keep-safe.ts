import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { Invalid } from '../../domain/kernel/errors.js';
import { Backups } from '../../storage/backup/backups.js';
import { restoreBackup } from '../../storage/backup/restore.js';
import { rowsIn } from '../../storage/backup/sqlite-copy.js';
import { type Clock, MachineClock } from '../../storage/clock.js';
import { countInWords } from '../../web/words/counts.js';
import { sizeInWords } from '../../web/words/sizes.js';
import type { Config } from '../config.js';
import { askInTerminal } from './ask-in-terminal.js';

/** The studio's backups, sealed where a passphrase is said. */
export const backupsOf = (config: Config, clock: Clock): Backups => {
  const { backupPassphrase: passphrase, dataDir } = config;
  return new Backups(
    config.home,
    config.backupDir,
    clock,
    passphrase ? { passphrase, folder: dataDir } : undefined,
  );
};

/** `npm run backup`: copies the data as it stands, the server running or not. */
export const backUp = async (config: Config, clock: Clock = new MachineClock()): Promise<string[]> => {
  if (config.home.kind === 'sqlite' && !existsSync(config.home.file))
    throw new Invalid(`There is nothing to back up yet: no file ${config.home.file}.`);
  const folder = config.backupDir;
  const { name, bytes, counts, sealed } = await backupsOf(config, clock).make();
  return [
    `backup: ${join(folder, name)}`,
    `checked: ${sizeInWords(bytes)}, ${countInWords(rowsIn(counts), 'row')} in it${sealed ? ', sealed with the passphrase' : ''}`,
  ];
};

/**
 * `npm run restore -- <file>`: puts a backup in the place of the present data.
 *
 * @param file a path, or only the name of one of the studio's own backups
 * @param from the folder the command was typed in
 * @param ask asks for the passphrase of a sealed backup where BACKUP_PASSPHRASE does not say it
 */
export const restore = async (
  config: Config,
  file: string,
  from = process.cwd(),
  clock: Clock = new MachineClock(),
  ask: () => Promise<string> = askInTerminal,
): Promise<string[]> => {
  const own = join(config.backupDir, basename(file));
  const path = resolve(from, file);
  await mkdir(config.dataDir, { recursive: true, mode: 0o700 });
  const backup = !existsSync(path) && existsSync(own) ? own : path;
  const { counts, replaced } = await restoreBackup(config.home, backup, clock.now(), {
    passphrase: async () => config.backupPassphrase ?? (await ask()),
    folder: config.dataDir,
  });
  return [
    `restored: ${countInWords(rowsIn(counts), 'row')} from ${backup}`,
    replaced ? `what was there before is kept: ${replaced}` : 'nothing was there before',
    'Everybody signs in again. API tokens are as they were when the backup was made.',
  ];
};
