import type { ObjectLiteral } from 'typeorm';
import type { HeldKeys } from './held-keys.js';

/**
 * What becomes of a row when its client is erased: it goes; it stays as it is, since the law wants it; it stays without
 * their name; or some of its columns are emptied, and it stays without their name.
 */
export type Erasing<R> = 'goes' | 'stays' | 'struck' | ((row: R) => Partial<R>);

/** One kind of row that can hang on a client. */
// biome-ignore lint/suspicious/noExplicitAny: a list of holdings cannot name the row of each
export type Holding<R extends ObjectLiteral = any> = {
  readonly row: new () => R;
  /** Its heading on the page of what is held; none where it is a part of another. */
  readonly name?: string;
  /** The columns by which it hangs on them, with the keys these hold; any of them is enough. */
  readonly by: Readonly<Partial<Record<keyof R & string, keyof HeldKeys>>>;
  readonly erased: Erasing<R>;
  /** Columns that are the studio's own affair and are not told to the client. */
  readonly unsaid?: readonly (keyof R & string)[];
  /** Columns that stay as they were issued. */
  readonly frozen?: readonly (keyof R & string)[];
};

/** Says one; its columns are checked against its row here. */
export const holding = <R extends ObjectLiteral>(one: Holding<R>): Holding => one;
