import type { EntityManager, ObjectLiteral } from 'typeorm';
import { strikeOutOfDocument, wordsLeadingTo } from '../../domain/clients/strike-out.js';
import type { Writing } from '../session.js';
import { eraseHistory, type Touched } from './erase-history.js';
import { type HeldPerson, heldKeys, heldPerson } from './held-keys.js';
import { heldRows } from './held-rows.js';
import type { Holding } from './holding.js';
import { holdings } from './holdings.js';
import { strikeEverywhere } from './strike-everywhere.js';

/**
 * Takes away everything that is held on a client but what the law wants kept, and what the history holds of it. It goes
 * round the verbs of the writing, which would keep in the history what is to be forgotten; the caller says the act.
 */
export const eraseClient = async (writing: Writing, id: string): Promise<HeldPerson> => {
  const { manager } = writing;
  const person = await heldPerson(writing, id);
  const keys = await heldKeys(writing, person);
  const words = wordsLeadingTo(person.names, person.marks);
  const touched: Touched[] = [];
  for (const one of holdings) {
    const rows = await heldRows(writing, one, keys);
    for (const row of rows) await eraseRow(manager, one, row, words);
    touched.push({
      table: manager.connection.getMetadata(one.row).tableName,
      ids: rows.map((row) => String(row.id)),
      // Lines of a plan are about the work: their history stays readable, without the name.
      keeps: one.erased === 'struck',
    });
  }
  const about = [
    ...keys.client.map((key) => `client/${key}`),
    ...keys.commission.map((key) => `commission/${key}`),
    ...[...keys.quote, ...keys.invoice].map((key) => `paper/${key}`),
    ...keys.payment.map((key) => `payment/${key}`),
    ...keys.enquiry.map((key) => `enquiry/${key}`),
    ...keys.counter.map((key) => `counter/${key}`),
  ];
  await eraseHistory(manager, touched, about, words);
  await strikeEverywhere(manager, person);
  return person;
};

const eraseRow = async (
  manager: EntityManager,
  { row: target, erased, frozen = [] }: Holding,
  row: ObjectLiteral,
  words: readonly string[],
): Promise<void> => {
  if (erased === 'stays') return;
  if (erased === 'goes') {
    await manager.delete(target, { id: row.id });
    return;
  }
  const emptied = typeof erased === 'function' ? erased(row) : {};
  const struck = Object.entries(row).flatMap(([column, value]) =>
    typeof value === 'string' && column !== 'id' && !frozen.includes(column) && !(column in emptied)
      ? [[column, strikeOutOfDocument(value, words)] as const].filter(([, text]) => text !== value)
      : [],
  );
  const changes = { ...Object.fromEntries(struck), ...emptied };
  if (Object.keys(changes).length === 0) return;
  await manager.update(target, { id: row.id }, { ...changes, version: Number(row.version) + 1 });
};
