import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Invalid } from '../../../domain/kernel/errors.js';
import { answerTo, type LongQuestion } from './answers.js';
import { rowsIn } from './history.js';

/** Below these an answer takes a few milliseconds, less than starting a thread. */
const FEW_ROWS = 100;
const FEW_STEPS = 200;
const LONGEST_MS = 600_000;
const MEMORY_MB = 1024;
/** Questions that may wait; the next is asked to come back. */
const MOST_WAITING = 20;

/** The thread's own file, in the language this one is in: JavaScript once built, TypeScript where the source is run. */
const THREAD = new URL(`./thread${extname(import.meta.url)}`, import.meta.url);

/** Works long questions out beside the server, one at a time, so that it keeps answering meanwhile. */
@Injectable()
export class Aside implements OnApplicationShutdown {
  private turn: Promise<unknown> = Promise.resolve();
  private waiting = 0;
  private thread: Worker | undefined;
  private isClosing = false;

  /** @throws Invalid when too many wait already, or when it takes too long */
  async answer(asked: LongQuestion): Promise<unknown> {
    if (!isLong(asked)) return answerTo(asked);
    if (this.waiting >= MOST_WAITING)
      throw new Invalid('Many long questions are being worked out. Ask again in a minute.', [], 'busy');
    this.waiting += 1;
    const mine = this.turn.then(() => this.inThread(asked));
    this.turn = mine.catch(() => undefined);
    try {
      return await mine;
    } finally {
      this.waiting -= 1;
    }
  }

  async onApplicationShutdown(): Promise<void> {
    this.isClosing = true;
    await this.thread?.terminate();
  }

  private inThread(asked: LongQuestion): Promise<unknown> {
    if (this.isClosing) return Promise.reject(new Error('The server is being shut down.'));
    const thread = new Worker(THREAD, {
      workerData: asked,
      execArgv: process.execArgv,
      resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
    });
    this.thread = thread;
    return new Promise<unknown>((resolve, reject) => {
      const tooLong = setTimeout(() => {
        reject(tooMuch());
        void thread.terminate();
      }, LONGEST_MS);
      thread.once('message', resolve);
      thread.once('error', (error: NodeJS.ErrnoException) =>
        reject(error.code === 'ERR_WORKER_OUT_OF_MEMORY' ? tooMuch() : error),
      );
      thread.once('exit', () => {
        clearTimeout(tooLong);
        reject(new Error('The thread ended without an answer.'));
      });
    });
  }
}

/** Every operation under way is looked at in the light of all the others. */
const stepsOf = (asked: LongQuestion): number => {
  if (asked.about === 'backtest') return 0;
  const { operations } = asked.garment;
  return operations.length * (1 + operations.filter(({ soFarMinutes }) => soFarMinutes).length);
};

const isLong = (asked: LongQuestion): boolean =>
  rowsIn(asked.history) >= FEW_ROWS || stepsOf(asked) >= FEW_STEPS;

const tooMuch = (): Invalid => {
  const text = 'This history is too much to work out at once. Send its newer part.';
  return new Invalid(text, [{ field: 'history', text }], 'too-much');
};
