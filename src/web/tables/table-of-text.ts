/** A list as a table of texts, before anybody says what its columns mean. */
export type TextTable = {
  readonly heads: readonly string[];
  /** Each with the line of the file on which it begins. */
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
};

/** What a list may hold, and what is said when nothing is in it. */
export type TableLimits = {
  readonly bytes: number;
  readonly rows: number;
  /** "There are no clients in this table." */
  readonly nothing: string;
  /** "This is not a text file. Save the table as CSV." */
  readonly noText: string;
};

export const MOST_COLUMNS = 120;
