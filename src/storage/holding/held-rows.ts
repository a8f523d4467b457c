import type { ObjectLiteral } from 'typeorm';
import type { Reading } from '../session.js';
import type { HeldKeys } from './held-keys.js';
import type { Holding } from './holding.js';
import { inParts } from './in-parts.js';

/** The rows of one kind that hang on a client, oldest first, each once. */
export const heldRows = async (
  reading: Reading,
  { row, by }: Holding,
  keys: HeldKeys,
): Promise<ObjectLiteral[]> => {
  const found = new Map<string, ObjectLiteral>();
  for (const [column, key] of Object.entries(by))
    for (const part of inParts(keys[key as keyof HeldKeys])) {
      const rows: ObjectLiteral[] = await reading.manager
        .createQueryBuilder(row, 'held')
        .where(`held.${column} IN (:...part)`, { part })
        .getMany();
      for (const one of rows) found.set(String(one.id), one);
    }
  return [...found.values()].toSorted((a, b) => (String(a.id) < String(b.id) ? -1 : 1));
};
