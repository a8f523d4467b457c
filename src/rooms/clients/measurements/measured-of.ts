import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';
import { dateInWords } from '../../../web/words/dates.js';
import type { ClientMeasured } from '../client.page.js';
import { standing } from './standing.js';
import { setUrl } from './take.page.js';
import { throughTime } from './through-time.js';

/** The last three sets of a client for the client's own page; none when nothing was measured yet. */
export const measuredOf = (
  sets: readonly KeptSet[],
  known: readonly BodyDimension[],
): ClientMeasured | undefined => {
  const newest = standing(sets).at(-1);
  const time = throughTime(sets, known, 3);
  if (!newest || !time) return undefined;
  return {
    time,
    set: { text: `The set of ${dateInWords(newest.takenOn)}`, href: setUrl(newest) },
    card: `${setUrl(newest)}/card.pdf`,
  };
};
