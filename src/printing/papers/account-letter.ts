import type { Letterhead } from './letterhead.js';
import type { Said } from './quote-sheet.js';

/** A cell of a letter's table; figures stand to the right. */
export type LetterCell = { readonly text: string; readonly figure: boolean };

/** One row of a letter's table. */
export type LetterRow = {
  readonly cells: readonly LetterCell[];
  /** The last rows, under a rule. */
  readonly total: boolean;
};

/**
 * A letter about money as words: a receipt, a statement of account, a reminder. Nothing is worked out while it is drawn; ''
 * and [] are left out.
 */
export type AccountLetter = {
  /** BCP 47. */
  readonly language: string;
  readonly letterhead: Letterhead;
  readonly title: string;
  /** '' for a letter that has none. */
  readonly number: string;
  readonly to: string;
  readonly client: { readonly name: string; readonly address: readonly string[] };
  readonly particulars: readonly Said[];
  readonly opening: readonly string[];
  readonly table: {
    readonly columns: readonly LetterCell[];
    readonly rows: readonly LetterRow[];
  };
  readonly pairs: readonly Said[];
  readonly closing: readonly string[];
};
