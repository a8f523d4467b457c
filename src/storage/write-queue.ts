import { AsyncLocalStorage } from 'node:async_hooks';
import { writesEnded } from './writes-ended.js';

/**
 * First in, first out: one write at a time. TypeORM gives SQLite one connection, and two overlapping transactions on it
 * destroy each other (test/storage/write-queue.test.ts shows it).
 */
export class WriteQueue {
  private last: Promise<unknown> = Promise.resolve();
  private readonly inside = new AsyncLocalStorage<true>();

  /** Is the caller already inside a queued write? Waiting for the queue there would wait for ever. */
  isInside(): boolean {
    return this.inside.getStore() === true;
  }

  /** Runs the work when all earlier work has ended, well or badly. */
  run<T>(work: () => Promise<T>): Promise<T> {
    if (this.isInside()) return Promise.reject(new Error('A queued write cannot wait for its own end.'));
    const counted = () =>
      this.inside.run(true, work).finally(() => {
        writesEnded.count += 1;
      });
    const turn = this.last.then(counted, counted);
    this.last = turn.catch(() => undefined);
    return turn;
  }

  /** Ends when nothing is waiting any more. */
  async idle(): Promise<void> {
    await this.last;
  }
}
