import { Conflict } from '../../domain/kernel/errors.js';

/** Something changed between printing and keeping: the paper in hand is not the one that would be issued. */
export class Overtaken extends Error {}

const TRIES = 12;

/**
 * Prints a paper outside every write and then keeps it, provided that nothing moved meanwhile; else prints again. A failed
 * print keeps nothing and takes no number.
 *
 * @param steps.ready the paper as it would go out now, with the number it would get
 * @param steps.keep throws {@link Overtaken} when what was printed is no longer true
 * @throws Conflict when others keep being faster
 */
export const printThenKeep = async <R, P, T>(steps: {
  readonly ready: () => Promise<R>;
  readonly print: (ready: R) => Promise<P>;
  readonly keep: (ready: R, printed: P) => Promise<T>;
}): Promise<T> => {
  for (let tries = 1; ; tries += 1) {
    const ready = await steps.ready();
    const printed = await steps.print(ready);
    try {
      return await steps.keep(ready, printed);
    } catch (error) {
      if (!(error instanceof Overtaken)) throw error;
      if (tries >= TRIES)
        throw new Conflict(
          'Others are issuing papers at this moment. Nothing was issued; try again.',
          'busy',
        );
    }
  }
};
