import type { Pattern } from '../../../domain/fitting/pattern.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import type { PatternSaid } from './pattern.form.js';

/** Corrects what is known of a pattern. @throws NotFound, Stale */
export const correctPattern = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  { correctedOn, ...said }: PatternSaid,
  seen?: number,
): Promise<Done<Pattern>> =>
  unit.write(visit, async (writing) => {
    const present = await patternBook.one(writing, id);
    const pattern = await patternBook.correct(writing, id, { ...present, ...said, correctedOn }, seen);
    writing.says(`Corrected the pattern ${pattern.number}`, `client/${pattern.clientId}/pattern/${id}`);
    return pattern;
  });
