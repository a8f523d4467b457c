import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading as Kept } from '../../../storage/session.js';
import type { Typed } from '../../../web/forms/typed.js';
import type { WorkSaid } from '../work/worked-on.js';
import { ODD } from './add-time.js';
import type { SplitSaid } from './correct-time.js';
import { readWorkWords } from './read-line.js';
import { typedDay, typedMinutes } from './time.form.js';

/**
 * Work that was named in words. @throws Invalid on that field where it names nothing, or several things
 */
export const typedWork = async (
  reading: Kept,
  text: string,
  field: string,
  garmentId?: string,
): Promise<WorkSaid> => {
  const work = await readWorkWords(reading, text, garmentId);
  if (work.kind === 'empty') throw Invalid.field(field, 'What was it for? Write the work and the garment.');
  if (work.kind === 'refuse') throw Invalid.field(field, work.sentence);
  if (work.kind === 'ask') {
    const instead = work.choices.map(({ words, typed }) => `“${typed}” for ${words}`).join('; ');
    throw Invalid.field(field, `${work.sentence} Write ${instead}.`);
  }
  const { garmentId: garment, operationId: operation, ...rest } = work.value;
  return { ...rest, garment, operation };
};

/** One sitting over several pieces of work, as it is typed. @throws Invalid naming every field at fault */
export const readSplit = async (
  reading: Kept,
  typed: Typed,
  rows: readonly Record<string, string>[],
): Promise<SplitSaid> => {
  const studio = await studioBook.the(reading);
  const troubles: FieldTrouble[] = [];
  const gather = async <T>(read: () => Promise<T> | T): Promise<T | undefined> => {
    try {
      return await read();
    } catch (error) {
      if (!(error instanceof Invalid)) throw error;
      troubles.push(...error.fields);
      return undefined;
    }
  };
  const isKept = Boolean(typed.entry);
  const total = isKept
    ? 1
    : await gather(() => typedMinutes(typed.total ?? '', studio, 'total', 'How long was the sitting?'));
  const on = isKept ? '' : await gather(() => typedDay(typed.on));
  const parts: SplitSaid['parts'][number][] = [];
  for (const [index, row] of rows.entries()) {
    const work = await gather(() => typedWork(reading, row.what ?? '', `parts.${index}.what`));
    const minutes = await gather(() => typedMinutes(row.minutes ?? '', studio, `parts.${index}.minutes`));
    if (work) parts.push({ ...work, minutes });
  }
  if (troubles.length > 0) throw new Invalid('Some fields need another look.', troubles);
  return {
    person: typed.person || undefined,
    entry: typed.entry || undefined,
    minutes: total ?? 1,
    on: on ?? '',
    evenIfOdd: typed[ODD] === 'yes',
    parts,
  };
};
