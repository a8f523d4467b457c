import { createReadStream } from 'node:fs';
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { NotFound } from '../../domain/kernel/errors.js';
import type { Clock } from '../clock.js';
import type { DataHome } from '../connection/data-source.js';
import { stampOf } from './restore.js';
import { copyRowsOut } from './row-copy.js';
import { copyFile, type RowCounts } from './sqlite-copy.js';

export type Backup = { readonly name: string; readonly madeAt: Instant; readonly bytes: number };

const NAME = /^bastings-(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})Z(?:-\d+)?\.(?:sqlite|jsonl)$/;

/** The backups of one studio, in a folder of their own beside its data. */
export class Backups {
  constructor(
    private readonly home: DataHome,
    readonly folder: string,
    private readonly clock: Clock,
  ) {}

  /** Which database it is decides how a backup is made, and what else there is to say about it. */
  get kind(): DataHome['kind'] {
    return this.home.kind;
  }

  /** Copies the data as it stands, while the studio works on, and checks the copy before it is called a backup. */
  async make(): Promise<Backup & { readonly counts: RowCounts }> {
    await mkdir(this.folder, { recursive: true, mode: 0o700 });
    const name = await this.freeName();
    const [unfinished, file] = [join(this.folder, `${name}.unfinished`), join(this.folder, name)];
    await rm(unfinished, { force: true });
    try {
      const counts =
        this.home.kind === 'sqlite'
          ? await copyFile(this.home.file, unfinished)
          : await copyRowsOut(this.home, unfinished);
      await onDisk(unfinished);
      await rename(unfinished, file);
      return { ...(await this.one(name)), counts };
    } finally {
      await rm(unfinished, { force: true });
    }
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

  /** @throws NotFound */
  async read(name: string): Promise<Readable> {
    await this.one(name);
    return createReadStream(join(this.folder, name));
  }

  private async one(name: string): Promise<Backup> {
    const [, date, hour, minute, second] = NAME.exec(name) ?? [];
    const found = date ? await stat(join(this.folder, name)).catch(() => undefined) : undefined;
    if (!found?.isFile()) throw new NotFound('backup');
    return { name, madeAt: `${date}T${hour}:${minute}:${second}.000Z`, bytes: found.size };
  }

  private async freeName(): Promise<string> {
    const taken = new Set((await this.list()).map(({ name }) => name));
    const stem = `bastings-${stampOf(this.clock.now())}`;
    const end = this.home.kind === 'sqlite' ? 'sqlite' : 'jsonl';
    for (let place = 1; ; place += 1) {
      const name = `${stem}${place === 1 ? '' : `-${place}`}.${end}`;
      if (!taken.has(name)) return name;
    }
  }
}

const onDisk = async (file: string): Promise<void> => {
  const handle = await open(file, 'r+');
  await handle.sync().finally(() => handle.close());
};
