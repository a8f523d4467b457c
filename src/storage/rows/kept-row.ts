/** What every row that people change has: a key and a version that goes up by one with each change. */
export interface KeptRow {
  id: string;
  version: number;
}
