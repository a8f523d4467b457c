import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { PastGarment } from '../../domain/estimating/lesson/history.js';
import { fitLesson, type Lesson } from '../../domain/estimating/lesson/lesson.js';
import type { Overruns } from '../../domain/estimating/lesson/starting-values.js';
import { type Backtest, backtest } from '../../domain/estimating/proof/backtest.js';

/** What a lesson is fitted to, as plain values that travel between threads. */
export type ToFit = { readonly history: readonly PastGarment[]; readonly overruns: Overruns };

/** Below these a fit takes a few milliseconds, less than starting a thread. */
const FEW_ROWS = 150;
const MEMORY_MB = 512;

/** A thread's own file, in the language this one is in: JavaScript once built, TypeScript where the source is run. */
const fileOf = (thread: string): URL => new URL(`./${thread}${extname(import.meta.url)}`, import.meta.url);

/** Is it quicker to fit at once than to start a thread? */
export const isQuick = ({ history }: ToFit): boolean =>
  history.reduce((rows, { operations }) => rows + operations.length, 0) < FEW_ROWS;

/** Fits at once. */
export const fitHere = ({ history, overruns }: ToFit): Lesson => fitLesson(history, { overruns });

/** Fits in a thread of its own, so that the server keeps answering meanwhile. */
export const fitAside = (asked: ToFit): Promise<Lesson> => aside('fit-thread', asked);

/** Holds the lesson against the studio's own past in a thread of its own: with many garments that takes seconds. */
export const proveAside = (asked: ToFit): Promise<Backtest> => aside('prove-thread', asked);

/** Proves at once. */
export const proveHere = ({ history, overruns }: ToFit): Backtest => backtest(history, { overruns });

/** A thread that keeps no process alive. */
const aside = <T>(file: 'fit-thread' | 'prove-thread', asked: ToFit): Promise<T> => {
  const thread = new Worker(fileOf(file), {
    workerData: asked,
    execArgv: process.execArgv,
    resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
  });
  thread.unref();
  return new Promise<T>((resolve, reject) => {
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The thread ended without an answer.')));
  });
};
