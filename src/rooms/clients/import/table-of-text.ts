/** A list of people as a table of texts, before anybody says what its columns mean. */
export type TextTable = {
  readonly heads: readonly string[];
  /** Each with the line of the file on which it begins. */
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
};

/** What an import may hold. */
export const MOST_BYTES = 2 * 1024 * 1024;
export const MOST_ROWS = 5000;
export const MOST_COLUMNS = 120;
