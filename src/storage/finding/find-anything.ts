import type { Reading } from '../session.js';
import type { Findable, Found } from './findable.js';

/** What was found of one kind. */
export type FoundKind = { readonly name: string; readonly found: readonly Found[]; readonly more: boolean };

const LONGEST_ASKED = 200;

/** Asks every source; kinds of which nothing was found are left out. */
export const findAnything = async (
  reading: Reading,
  sources: readonly Findable[],
  typed: string,
  limit = 8,
): Promise<FoundKind[]> => {
  const asked = typed.slice(0, LONGEST_ASKED).trim();
  if (asked === '') return [];
  const kinds = await Promise.all(
    sources.map(async ({ name, find }) => {
      const found = await find(reading, asked, limit + 1);
      return { name, found: found.slice(0, limit), more: found.length > limit };
    }),
  );
  return kinds.filter(({ found }) => found.length > 0);
};
