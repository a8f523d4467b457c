import { Invalid } from '../../../domain/kernel/errors.js';
import { pastWorkBook } from '../../../storage/books/lessons/past-work-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { pastGarmentBook } from '../../../storage/books/past-garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { readTable } from '../../../web/tables/read-table.js';
import { countInWords } from '../../../web/words/counts.js';
import { meaningsOf } from './columns.js';
import { GARMENT_LIST, type ImportWords } from './import.form.js';
import { type PlannedGarment, type PlannedList, planList } from './plan-rows.js';

/** What a garment of the list comes to. */
export type Outcome = 'trouble' | 'leave' | 'add';

export const outcomeOf = (one: PlannedGarment, twins: ImportWords['twins']): Outcome => {
  if (!one.words) return 'trouble';
  return one.isTwin && twins === 'leave' ? 'leave' : 'add';
};

/** Reads a list as it would be brought in now; nothing is kept. @throws Invalid */
export const planImport = async (
  reading: Reading,
  clock: Clock,
  text: string,
  words: ImportWords,
): Promise<PlannedList> => {
  const meanings = meaningsOf(words.columns);
  for (const [field, sentence] of [
    ['type', 'Say which column holds the garment type.'],
    ['took', 'Say which column holds the time it took.'],
  ] as const)
    if (!meanings.some((meaning) => meaning?.field === field)) throw Invalid.field('to.0', sentence);
  const has = (field: string) => meanings.some((meaning) => meaning?.field === field);
  if (has('operation') && !has('garment'))
    throw Invalid.field(
      'to.0',
      'Say which column holds the number of the garment: its operations stand on several rows.',
    );
  for (const field of ['took', 'planned', 'operation'] as const) {
    const places = meanings.flatMap((meaning, place) => (meaning?.field === field ? [place] : []));
    if (places.length > 1)
      throw Invalid.field(`to.${places[1]}`, 'Two columns hold the same. Leave one of them out.');
  }
  const { identity } = await studioBook.the(reading);
  const planned = planList(readTable(text, words.headed, GARMENT_LIST), {
    meanings,
    kinds: words.kinds,
    works: words.works,
    operations: has('operation') ? await makingBook.operations(reading) : [],
    types: await makingBook.types(reading),
    past: await pastGarmentBook.all(reading),
    dates: { today: todayIn(clock, identity.zone), locale: identity.locale },
  });
  if (planned.bareIn !== undefined)
    throw Invalid.field(
      `unit.${planned.bareIn}`,
      'Some times here are bare numbers. Are they hours or minutes?',
    );
  return planned;
};

/** How many were brought in. */
export type Brought = { readonly garments: number; readonly leftOut: number };

/**
 * Brings a list in, all of it or nothing, as one act that can be undone.
 *
 * @throws Invalid when rows are in trouble or unusual and nobody said what becomes of them
 */
export const bringGarments = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  text: string,
  words: ImportWords,
): Promise<Done<Brought>> =>
  unit.write(visit, async (writing) => {
    const { garments } = await planImport(writing, clock, text, words);
    const inTrouble = garments.filter((one) => outcomeOf(one, words.twins) === 'trouble').length;
    if (inTrouble > 0 && !words.leaveTroubles)
      throw Invalid.field('leaveTroubles', `Nothing was added: ${inTrouble} of the garments cannot be read.`);
    const fresh = garments.filter((one) => outcomeOf(one, words.twins) === 'add');
    if (fresh.some(({ isUnusual }) => isUnusual) && !words.keepUnusual)
      throw Invalid.field('keepUnusual', 'Nothing was added: some times look like a slip.');
    const kept = fresh.flatMap(({ words: one, operations }) => (one ? [{ one, operations }] : []));
    if (kept.length === 0)
      throw Invalid.field('twins', 'Nothing of this list would be added. Choose otherwise, or leave it.');
    const ids = await pastGarmentBook.addAll(
      writing,
      kept.map(({ one }) => one),
    );
    const byOperation = kept.flatMap(({ operations }, place) =>
      operations.length > 0 ? [[ids[place] ?? '', operations] as const] : [],
    );
    await pastWorkBook.addAll(writing, new Map(byOperation));
    writing.says(`Brought in ${countInWords(kept.length, 'past garment')} from a list`, 'lessons/totals');
    return { garments: kept.length, leftOut: garments.length - kept.length };
  });
