import type { EntityManager, EntityTarget } from 'typeorm';
import type { Instant } from '../domain/kernel/calendar-date.js';
import type { KeptRow } from './rows/kept-row.js';

/** A view of the kept rows; books take one and answer from it. */
export interface Reading {
  readonly manager: EntityManager;
  /**
   * Answers from memory while nothing was written since; missing inside a write, which reads what it has just written.
   *
   * @param name the question with everything its answer depends on besides the rows
   */
  kept?<T>(name: string, read: () => Promise<T>): Promise<T>;
}

/** An answer that is kept where the reading can keep it. */
export const keptIn = <T>(reading: Reading, name: string, read: () => Promise<T>): Promise<T> =>
  reading.kept ? reading.kept(name, read) : read();

type Asked<T extends readonly (() => Promise<unknown>)[]> = { [K in keyof T]: Awaited<ReturnType<T[K]>> };

/** Questions that do not wait for each other: asked beside each other by pages, one after the other inside a write. */
export const besides = async <T extends readonly (() => Promise<unknown>)[]>(
  reading: Reading,
  ...asks: T
): Promise<Asked<T>> => {
  if (reading.kept) return Promise.all(asks.map((ask) => ask())) as Promise<Asked<T>>;
  const answers: unknown[] = [];
  for (const ask of asks) answers.push(await ask());
  return answers as unknown as Asked<T>;
};

/** Whose hand it is, and the once-only key of the form or request it came with. */
export interface Visit {
  readonly who: { readonly id: string; readonly name: string };
  readonly once?: { readonly key: string; readonly fingerprint: string };
}

/**
 * One act in the making: everything done through it is kept together or not at all, and leaves who, when, from and to.
 * Books write through these five verbs only, never through the manager.
 */
export interface Writing extends Reading {
  readonly visit: Visit;
  readonly at: Instant;
  /** Says what was done, for the history: `Corrected Corvin Haddlestone`, about `client/0190…`. */
  says(sentence: string, subject: string): void;
  newId(): string;
  /** Inserts a row at version 1. */
  insert<R extends KeptRow>(row: EntityTarget<R>, values: Omit<R, 'version'>): Promise<R>;
  /** Inserts many rows of one table in few statements, each as `insert` would. */
  insertAll<R extends KeptRow>(row: EntityTarget<R>, values: readonly Omit<R, 'version'>[]): Promise<R[]>;
  /**
   * Changes some columns of one row and raises its version.
   *
   * @param seen the version the change was made on; left out where no person looked at it
   * @throws Stale when the row has another version by now; NotFound when it is gone
   */
  update<R extends KeptRow>(row: EntityTarget<R>, id: string, changes: Partial<R>, seen?: number): Promise<R>;
  /** Takes a row away; the history keeps it and undo can bring it back. */
  remove<R extends KeptRow>(row: EntityTarget<R>, id: string, seen?: number): Promise<R>;
  /** Takes many rows of one table away in few statements, each as `remove` would. @throws NotFound where one is gone */
  removeAll<R extends KeptRow>(row: EntityTarget<R>, ids: readonly string[]): Promise<void>;
  /** Inserts a row of append-only history (papers, payments, entries): the act can then not be undone, only reversed. */
  insertForGood<R extends KeptRow>(row: EntityTarget<R>, values: Omit<R, 'version'>): Promise<R>;
  /** This act can be changed forward, never undone: putting its rows back would not put back what they mean. */
  forGood(): void;
  /** From here on nothing earlier about this subject can be undone: a paper was issued on it. */
  seal(subject: string): Promise<void>;
}
