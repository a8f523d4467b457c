import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DataSource } from 'typeorm';
import { type DataHome, openForReading, openForWriting } from '../../src/storage/connection/data-source.js';
import { ReadSide } from '../../src/storage/read-side.js';
import type { Visit } from '../../src/storage/session.js';
import { UnitOfWork } from '../../src/storage/unit-of-work.js';
import { freshPostgres, isPostgresLeftOut } from '../support/postgres.js';
import { StillClock } from '../support/still-clock.js';

export type Kind = DataHome['kind'];

/** Both databases, for `describe.each`; one where PostgreSQL is left out on purpose. */
export const kinds: readonly Kind[] = isPostgresLeftOut ? ['sqlite'] : ['sqlite', 'postgres'];

/** A place for data that is empty and is taken away again. */
export const freshHome = async (kind: Kind): Promise<{ home: DataHome; leave: () => Promise<void> }> => {
  if (kind === 'postgres') {
    const { url, drop } = await freshPostgres();
    return { home: { kind, url }, leave: drop };
  }
  const folder = mkdtempSync(join(tmpdir(), 'bastings-kept-'));
  const leave = async (): Promise<void> => rmSync(folder, { recursive: true, force: true });
  return { home: { kind, file: join(folder, 'bastings.sqlite') }, leave };
};

/** The kept data with nothing round it: both connections, the unit of work, a clock that stands still. */
export type KeptHome = {
  home: DataHome;
  writing: DataSource;
  reading: DataSource;
  unit: UnitOfWork;
  read: ReadSide;
  clock: StillClock;
  close: () => Promise<void>;
};

export const openKeptHome = async (kind: Kind): Promise<KeptHome> => {
  const { home, leave } = await freshHome(kind);
  const writing = await openForWriting(home);
  const reading = await openForReading(home);
  const clock = new StillClock();
  const close = async (): Promise<void> => {
    await reading.destroy();
    await writing.destroy();
    await leave();
  };
  return {
    home,
    writing,
    reading,
    unit: new UnitOfWork(writing, clock),
    read: new ReadSide(reading),
    clock,
    close,
  };
};

/** The hand of the invented studio; with a once-only key where asked. */
export const odalys = (onceKey?: string): Visit => ({
  who: { id: 'odalys', name: 'Odalys Fenwright' },
  ...(onceKey ? { once: { key: onceKey, fingerprint: 'the same' } } : {}),
});

export const aKey = (): string => randomUUID();

/** What is said about a client, with only the name to give. */
export const clientWords = (name: string, more: { phone?: string; notes?: string } = {}) => ({
  name,
  address: '',
  country: '',
  email: '',
  phone: '',
  taxNumber: '',
  notes: '',
  isChild: false,
  birthDate: undefined,
  guardian: '',
  ...more,
});
