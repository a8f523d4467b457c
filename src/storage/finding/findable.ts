import type { Reading } from '../session.js';

/** One thing that was found: what it is called, and what it is, as a path such as `client/0190…`. */
export type Found = { readonly text: string; readonly note?: string; readonly about: string };

/** A kind of thing that can be found from every page. */
export type Findable = {
  /** Its plural, as the heading over what was found: `Clients`. */
  readonly name: string;
  /**
   * The things that hold every word asked for, the most likely first.
   *
   * @param asked as typed, not empty
   */
  find(reading: Reading, asked: string, limit: number): Promise<readonly Found[]>;
};
