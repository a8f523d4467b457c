import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { PastGarment } from '../../domain/estimating/lesson/history.js';
import { fitLesson, type Lesson } from '../../domain/estimating/lesson/lesson.js';
import type { Overruns } from '../../domain/estimating/lesson/starting-values.js';

/** What a lesson is fitted to, as plain values that travel between threads. */
export type ToFit = { readonly history: readonly PastGarment[]; readonly overruns: Overruns };

/** Below these a fit takes a few milliseconds, less than starting a thread. */
const FEW_ROWS = 150;
const MEMORY_MB = 512;

/** The thread's own file, in the language this one is in: JavaScript once built, TypeScript where the source is run. */
const THREAD = new URL(`./fit-thread${extname(import.meta.url)}`, import.meta.url);

/** Is it quicker to fit at once than to start a thread? */
export const isQuick = ({ history }: ToFit): boolean =>
  history.reduce((rows, { operations }) => rows + operations.length, 0) < FEW_ROWS;

/** Fits at once. */
export const fitHere = ({ history, overruns }: ToFit): Lesson => fitLesson(history, { overruns });

/** Fits in a thread of its own, so that the server keeps answering meanwhile; it keeps no process alive. */
export const fitAside = (asked: ToFit): Promise<Lesson> => {
  const thread = new Worker(THREAD, {
    workerData: asked,
    execArgv: process.execArgv,
    resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
  });
  thread.unref();
  return new Promise<Lesson>((resolve, reject) => {
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The thread ended without a lesson.')));
  });
};
