/**
 * How many of a list are wanted at once, from the query: a whole number from 1 to the most there may be.
 *
 * @param asked as it stands in the address; nothing that can be meant gives the usual number
 */
export const pageSize = (asked: string, usual: number, most = 100): number =>
  Math.min(most, Math.max(1, Math.trunc(Number(asked)) || usual));
