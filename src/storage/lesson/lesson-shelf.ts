import { fitLesson, type Lesson } from '../../domain/estimating/lesson/lesson.js';
import type { Overruns } from '../../domain/estimating/lesson/starting-values.js';
import type { Reading } from '../session.js';
import { fitAside, fitHere, isQuick } from './fit-aside.js';
import { ProofShelf, type ProofSoFar } from './proof-shelf.js';
import { type TaughtGarment, TaughtGarments, taughtVersion } from './taught-garments.js';

/** A lesson with what it was fitted to. */
type Fitted = { readonly key: string; readonly lesson: Lesson };

/**
 * The fitted lesson of one database, kept in memory: fitted anew beside the requests whenever the closed garments have changed,
 * while requests go on with the last one. Only the first lesson after the program started is waited for, so that no price is ever
 * worked out as if nothing had been learnt. It is always fitted from the start, never from an earlier lesson: the same garments
 * give the same lesson, whatever came before.
 */
export class LessonShelf {
  private readonly taught = new TaughtGarments();
  private readonly proved = new ProofShelf();
  private fitted: Fitted | undefined;
  private fitting: { readonly key: string; readonly done: Promise<Fitted> } | undefined;

  async present(reading: Reading, overruns: Overruns): Promise<Lesson> {
    const version = await taughtVersion(reading);
    const key = `${overruns} ${version}`;
    if (this.fitted?.key === key) return this.fitted.lesson;
    if (version === '') return this.keep({ key, lesson: fitLesson([], { overruns }) });
    // Inside a write nothing is fitted for later: its view of the rows ends with it.
    if (!reading.kept && this.fitted) return this.fitted.lesson;
    const fresh = this.fit(reading, key, overruns);
    if (this.fitted && !(await this.isQuick(reading))) {
      fresh.catch(() => undefined);
      return this.fitted.lesson;
    }
    return (await fresh).lesson;
  }

  /** Closed garments, in the order they were closed in. */
  closed(reading: Reading): Promise<TaughtGarment[]> {
    return this.taught.closed(reading);
  }

  /** How often what was stated came true, from the garments closed by now. */
  async proof(reading: Reading, overruns: Overruns): Promise<ProofSoFar> {
    return this.proved.present(`${overruns} ${await taughtVersion(reading)}`, async () => ({
      history: await this.taught.history(reading),
      overruns,
    }));
  }

  /** Waits until nothing is being fitted. */
  async idle(): Promise<void> {
    await this.fitting?.done.catch(() => undefined);
  }

  /** Waits until nothing is being proved. */
  proofIdle(): Promise<void> {
    return this.proved.idle();
  }

  private async isQuick(reading: Reading): Promise<boolean> {
    return isQuick({ history: await this.taught.history(reading), overruns: 'unknown' });
  }

  private fit(reading: Reading, key: string, overruns: Overruns): Promise<Fitted> {
    if (this.fitting?.key === key) return this.fitting.done;
    const done = this.taught
      .history(reading)
      .then(async (history) => {
        const asked = { history, overruns };
        const lesson = isQuick(asked) ? fitHere(asked) : await fitAside(asked);
        this.keep({ key, lesson });
        return { key, lesson };
      })
      .finally(() => {
        if (this.fitting?.done === done) this.fitting = undefined;
      });
    this.fitting = { key, done };
    return done;
  }

  /** A fit that took longer than a later one must not take its place. */
  private keep(fitted: Fitted): Lesson {
    if (this.fitting === undefined || this.fitting.key === fitted.key) this.fitted = fitted;
    return fitted.lesson;
  }
}
