/** How many writes of this program have ended; whoever remembers what it read compares this first. */
export const writesEnded = { count: 0 };
