import { createReadStream } from 'node:fs';
import { mkdir, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { NotFound, Trouble } from '../../../domain/kernel/errors.js';
import { stampOf } from '../../../storage/backup/restore.js';
import { Clock } from '../../../storage/clock.js';
import { inWordsWhereFull } from '../../../storage/disk-full.js';
import { readExport } from '../../../storage/moving/export/export-form.js';
import { ExportPlace } from '../../../storage/moving/export/export-place.js';
import { log } from '../../../web/log.js';
import { faultWords } from '../../../web/manners/fault-words.js';
import { writeExport } from './write-export.js';

const NAME = /^bastings-export-(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})Z\.zip$/;

/** An export that lies there to be taken. */
export type Written = { readonly name: string; readonly madeAt: Instant; readonly bytes: number };

/** How far the export that is being written has come, or why the last one was not written. */
export type Writing =
  | { readonly is: 'running'; readonly done: number; readonly all: number }
  | { readonly is: 'failed'; readonly text: string };

/** Exports written by the server: one at a time, and the last one kept. */
@Injectable()
export class Exports implements OnApplicationShutdown {
  private writing: Writing | undefined;
  private work: Promise<void> | undefined;

  constructor(
    private readonly place: ExportPlace,
    private readonly clock: Clock,
  ) {}

  async onApplicationShutdown(): Promise<void> {
    await this.work;
  }

  /** The one that runs, or how the last try ended where it failed. */
  now(): Writing | undefined {
    return this.writing;
  }

  /** Begins one; where one is being written, that one goes on. */
  begin(): void {
    if (this.writing?.is === 'running') return;
    this.writing = { is: 'running', done: 0, all: 1 };
    this.work = this.write().then(
      () => {
        this.writing = undefined;
      },
      (error: unknown) => {
        if (!(error instanceof Trouble)) log.error({ error: faultWords(error) }, 'an export was not written');
        const text = error instanceof Trouble ? error.message : 'The program failed at it; its log says how.';
        this.writing = { is: 'failed', text };
      },
    );
  }

  /** Ends when the one that runs has ended. */
  async idle(): Promise<void> {
    await this.work;
  }

  async written(): Promise<Written | undefined> {
    const names = await readdir(this.place.folder).catch((): string[] => []);
    const name = names
      .filter((one) => NAME.test(one))
      .toSorted()
      .at(-1);
    return name === undefined ? undefined : this.one(name);
  }

  /** @throws NotFound */
  async read(name: string): Promise<Readable> {
    await this.one(name);
    return createReadStream(join(this.place.folder, name));
  }

  private write(): Promise<void> {
    return inWordsWhereFull(async () => {
      const { home, folder } = this.place;
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const before = await readdir(folder);
      const name = `bastings-export-${stampOf(this.clock.now())}.zip`;
      const unfinished = join(folder, `${name}.unfinished`);
      for (const left of before.filter((one) => /\.unfinished/.test(one))) await rm(join(folder, left));
      try {
        await writeExport(home, folder, unfinished, this.clock, (done, all) => {
          this.writing = { is: 'running', done, all };
        });
        await readExport(unfinished);
        await rename(unfinished, join(folder, name));
        for (const old of before) if (NAME.test(old) && old !== name) await rm(join(folder, old));
      } finally {
        await rm(unfinished, { force: true });
      }
    });
  }

  private async one(name: string): Promise<Written> {
    const [, date, hour, minute, second] = NAME.exec(name) ?? [];
    const found = date ? await stat(join(this.place.folder, name)).catch(() => undefined) : undefined;
    if (!found?.isFile()) throw new NotFound('export');
    return { name, madeAt: `${date}T${hour}:${minute}:${second}.000Z`, bytes: found.size };
  }
}
