import { createReadStream } from 'node:fs';
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { type BackupStanding, backupStanding } from '../../domain/house/backup/backup-standing.js';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { NotFound, Trouble } from '../../domain/kernel/errors.js';
import type { Clock } from '../clock.js';
import type { DataHome } from '../connection/data-source.js';
import { stampOf } from './restore.js';
import { copyRowsOut } from './row-copy.js';
import { sealFile } from './sealed/seal-aside.js';
import { copyFile, type RowCounts } from './sqlite-copy.js';
import { inWordsWhereNotWritten } from './why-not-written.js';

export type Backup = {
  readonly name: string;
  readonly madeAt: Instant;
  readonly bytes: number;
  /** The round of the day made it, and takes it away in time; one made by hand stays. */
  readonly daily: boolean;
  /** It opens with the passphrase only. */
  readonly sealed: boolean;
};

/** What went wrong the last time; gone as soon as a backup is made. */
export type BackupTrouble = { readonly at: Instant; readonly text: string };

/**
 * With a passphrase every backup is sealed. `folder` is the studio's own, where the copy lies while it is being sealed;
 * `work` is for tests, which have no second to spare.
 */
export type Seal = { readonly passphrase: string; readonly folder: string; readonly work?: number };

const NAME =
  /^bastings-(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})Z(-daily)?(?:-\d+)?\.(?:sqlite|jsonl)(\.age)?$/;
const UNFINISHED = /^bastings-.+\.unfinished(-open)?$/;

/** The backups of one studio, in a folder of their own. */
export class Backups {
  trouble: BackupTrouble | undefined;
  private making: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly home: DataHome,
    readonly folder: string,
    private readonly clock: Clock,
    private readonly seal?: Seal,
  ) {}

  /** Which database it is decides how a backup is made, and what else there is to say about it. */
  get kind(): DataHome['kind'] {
    return this.home.kind;
  }

  get areSealed(): boolean {
    return this.seal !== undefined;
  }

  /** Copies the data as it stands, while the studio works on, and checks the copy before it is called a backup. One at a time. */
  async make(daily = false): Promise<Backup & { readonly counts: RowCounts }> {
    const mine = this.making.then(() => this.makeNow(daily));
    this.making = mine.catch(() => undefined);
    try {
      const made = await mine;
      this.trouble = undefined;
      return made;
    } catch (error) {
      const text = error instanceof Trouble ? error.message : 'The program failed at it; its log says how.';
      this.trouble = { at: this.clock.now(), text };
      throw error;
    }
  }

  private makeNow(daily: boolean): Promise<Backup & { readonly counts: RowCounts }> {
    return inWordsWhereNotWritten(this.folder, async () => {
      await mkdir(this.folder, { recursive: true, mode: 0o700 });
      const name = await this.freeName(daily);
      const [unfinished, file] = [join(this.folder, `${name}.unfinished`), join(this.folder, name)];
      // What is to be sealed is never laid open in a folder that may be somebody else's.
      const open = this.seal ? join(this.seal.folder, `${name}.unfinished-open`) : unfinished;
      await rm(unfinished, { force: true });
      await rm(open, { force: true });
      if (this.seal) await mkdir(this.seal.folder, { recursive: true, mode: 0o700 });
      try {
        const counts =
          this.home.kind === 'sqlite'
            ? await copyFile(this.home.file, open)
            : await copyRowsOut(this.home, open);
        if (this.seal) await sealFile(open, unfinished, this.seal.passphrase, this.seal.work);
        await onDisk(unfinished);
        await rename(unfinished, file);
        return { ...(await this.one(name)), counts };
      } finally {
        await rm(unfinished, { force: true });
        await rm(open, { force: true });
      }
    });
  }

  /** What there is, newest first. */
  async list(): Promise<Backup[]> {
    const names = await readdir(this.folder).catch((): string[] => []);
    const backups = await Promise.all(names.filter((name) => NAME.test(name)).map((name) => this.one(name)));
    return backups.toSorted(
      (a, b) =>
        b.madeAt.localeCompare(a.madeAt) || b.name.length - a.name.length || b.name.localeCompare(a.name),
    );
  }

  /** When the last good one was made, whether that is too long ago, and what went wrong since. */
  async standing(): Promise<BackupStanding & { readonly trouble: BackupTrouble | undefined }> {
    const made = (await this.list()).map(({ madeAt }) => madeAt);
    return { ...backupStanding(made, this.clock.now()), trouble: this.trouble };
  }

  /** @throws NotFound */
  async read(name: string): Promise<Readable> {
    await this.one(name);
    return createReadStream(join(this.folder, name));
  }

  /** Takes a backup away. @throws NotFound */
  async remove(name: string): Promise<void> {
    await this.one(name);
    await rm(join(this.folder, name));
  }

  /** Takes away what a process that was ended in the midst of a backup left behind. */
  async clearUnfinished(): Promise<void> {
    await this.making;
    for (const folder of this.seal ? [this.folder, this.seal.folder] : [this.folder]) {
      const names = await readdir(folder).catch((): string[] => []);
      for (const name of names.filter((name) => UNFINISHED.test(name))) {
        const { mtimeMs } = await stat(join(folder, name));
        // Another process may be at work on a young one.
        if (this.clock.ticks() - mtimeMs > LEFT_AFTER) await rm(join(folder, name), { force: true });
      }
    }
  }

  private async one(name: string): Promise<Backup> {
    const [, date, hour, minute, second, daily, sealed] = NAME.exec(name) ?? [];
    const found = date ? await stat(join(this.folder, name)).catch(() => undefined) : undefined;
    if (!found?.isFile()) throw new NotFound('backup');
    return {
      name,
      madeAt: `${date}T${hour}:${minute}:${second}.000Z`,
      bytes: found.size,
      daily: daily !== undefined,
      sealed: sealed !== undefined,
    };
  }

  private async freeName(daily: boolean): Promise<string> {
    const taken = new Set((await this.list()).map(({ name }) => name));
    const stem = `bastings-${stampOf(this.clock.now())}${daily ? '-daily' : ''}`;
    const end = `${this.home.kind === 'sqlite' ? 'sqlite' : 'jsonl'}${this.seal ? '.age' : ''}`;
    for (let place = 1; ; place += 1) {
      const name = `${stem}${place === 1 ? '' : `-${place}`}.${end}`;
      if (!taken.has(name)) return name;
    }
  }
}

/** Milliseconds after which an unfinished copy is nobody's any more. */
const LEFT_AFTER = 6 * 3_600_000;

const onDisk = async (file: string): Promise<void> => {
  const handle = await open(file, 'r+');
  await handle.sync().finally(() => handle.close());
};
