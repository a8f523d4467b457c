import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Conflict, Invalid } from '../../domain/kernel/errors.js';
import { OnceRow } from '../../storage/history/once.row.js';
import { ReadSide } from '../../storage/read-side.js';
import { AlreadyDone, UnitOfWork } from '../../storage/unit-of-work.js';
import { answer, isReply, type Reply, seeOther } from '../reply.js';
import { problemOf } from './problem.js';

export type OnceKey = { readonly key: string; readonly fingerprint: string };

/** A once-only key and what was asked with it, hashed. */
export const onceKeyOf = (
  key: string,
  owner: string,
  method: string,
  url: string,
  body: unknown,
): OnceKey => {
  if (!/^[\x21-\x7e]{1,200}$/.test(key)) throw new Invalid('A once-only key is 1 to 200 visible characters.');
  const asked = createHash('sha256')
    .update(`${method} ${url}\n${JSON.stringify(body ?? null)}`)
    .digest('hex');
  return { key: createHash('sha256').update(`${owner}\n${key}`).digest('hex'), fingerprint: asked };
};

/** The same button pressed twice, or the same request sent again, gets the first answer and does nothing more. */
@Injectable()
export class OnceOnly {
  private readonly underWay = new Map<string, Promise<unknown>>();

  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  /**
   * @throws Invalid when the key was used for something else
   * @throws Conflict when it was carried out but its answer was lost
   */
  async run(once: OnceKey, act: () => Promise<unknown>): Promise<unknown> {
    const earlier = this.underWay.get(once.key) ?? Promise.resolve();
    const turn = earlier.then(
      () => this.firstOrAct(once, act),
      () => this.firstOrAct(once, act),
    );
    this.underWay.set(once.key, turn);
    try {
      return await turn;
    } finally {
      if (this.underWay.get(once.key) === turn) this.underWay.delete(once.key);
    }
  }

  private async firstOrAct(once: OnceKey, act: () => Promise<unknown>): Promise<unknown> {
    const said = await this.firstAnswer(once);
    if (said) return said;
    let result: unknown;
    try {
      result = await act();
    } catch (error) {
      // Another server process on the same database was faster; its answer is about to be there.
      if (error instanceof AlreadyDone) return (await this.firstAnswer(once)) ?? Promise.reject(error);
      throw error;
    }
    await this.keep(once, result);
    return result;
  }

  private async firstAnswer(once: OnceKey, triesLeft = 20): Promise<Reply | undefined> {
    const row = await this.read.manager.findOneBy(OnceRow, { id: once.key });
    if (!row) return undefined;
    if (row.fingerprint !== once.fingerprint) {
      throw new Invalid(
        'This once-only key was used for something else. Use a new one.',
        [],
        'once-key-reused',
      );
    }
    if (row.status === null) {
      if (triesLeft === 0)
        throw new Conflict('This was already done; it was not done a second time.', 'already-done');
      await new Promise((resolve) => setTimeout(resolve, 50));
      return this.firstAnswer(once, triesLeft - 1);
    }
    if (row.body !== null) {
      return answer(
        JSON.parse(row.body),
        row.status,
        row.location === null ? undefined : { location: row.location },
      );
    }
    return seeOther(row.location ?? '/');
  }

  private async keep(once: OnceKey, result: unknown): Promise<void> {
    const kept = answerColumns(result);
    if (kept) await this.unit.aside((manager) => manager.update(OnceRow, { id: once.key }, kept));
  }
}

const SHOWN_ONCE = new Conflict(
  'This was already done. Its secret is shown once only; make another one.',
  'already-done',
);

const answerColumns = (result: unknown): Pick<OnceRow, 'status' | 'location' | 'body'> | undefined => {
  if (!isReply(result)) return { status: 200, location: null, body: JSON.stringify(result ?? null) };
  if (result.is === 'elsewhere') {
    const url = result.act ? withDone(result.url, result.act) : result.url;
    return { status: 303, location: url, body: null };
  }
  if (result.is === 'answer' && result.secret) {
    return { status: 409, location: null, body: JSON.stringify(problemOf(SHOWN_ONCE)) };
  }
  if (result.is === 'answer' && result.status < 400) {
    return {
      status: result.status,
      location: result.headers?.location ?? null,
      body: JSON.stringify(result.body ?? null),
    };
  }
  return undefined;
};

/** The address with the act that led there, so that the page can say what was done and offer to undo it. */
export const withDone = (url: string, act: string): string => {
  const [path, fragment] = url.split('#') as [string, string?];
  return `${path}${path.includes('?') ? '&' : '?'}done=${act}${fragment ? `#${fragment}` : ''}`;
};
