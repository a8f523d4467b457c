import type { ObjectLiteral } from 'typeorm';
import { ActRow } from '../history/act.row.js';
import { isSecret } from '../history/secret-columns.js';
import type { Reading } from '../session.js';
import { heldKeys, heldPerson } from './held-keys.js';
import { heldRows } from './held-rows.js';
import { holdings } from './holdings.js';

/** What becomes of a kind of record when the client is erased. */
export type Fate = 'goes' | 'stays' | 'nameless';

/** One kind of record that is held on a client. */
export type HeldKind = {
  /** `Measurements`. */
  readonly name: string;
  readonly fate: Fate;
  readonly rows: readonly Record<string, string | number | boolean | null>[];
};

export type Held = {
  readonly kinds: readonly HeldKind[];
  /** How many acts of the history are about them. */
  readonly acts: number;
};

/** For upkeep only: they say nothing to anybody. */
const isUpkeep = (column: string): boolean =>
  /(^|_)folded$|^version$|^sha256$|^fingerprint$/.test(column) || isSecret(column);

/** Everything that is held on one client. @throws NotFound */
export const whatIsHeld = async (reading: Reading, clientId: string): Promise<Held> => {
  const keys = await heldKeys(reading, await heldPerson(reading, clientId));
  const kinds: HeldKind[] = [];
  for (const one of holdings) {
    if (one.name === undefined) continue;
    const rows = await heldRows(reading, one, keys);
    kinds.push({
      name: one.name,
      fate: one.erased === 'goes' || one.erased === 'stays' ? one.erased : 'nameless',
      rows: rows.map((row) => told(row, one.unsaid ?? [])),
    });
  }
  const acts = await reading.manager
    .createQueryBuilder(ActRow, 'act')
    .where('act.subject = :subject OR act.subject LIKE :below', {
      subject: `client/${clientId}`,
      below: `client/${clientId}/%`,
    })
    .getCount();
  return { kinds, acts };
};

const told = (row: ObjectLiteral, unsaid: readonly string[]): HeldKind['rows'][number] =>
  Object.fromEntries(
    Object.entries(row).filter(([column]) => !isUpkeep(column) && !unsaid.includes(column)),
  ) as HeldKind['rows'][number];
