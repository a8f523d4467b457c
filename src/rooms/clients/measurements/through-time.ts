import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { differences } from '../../../domain/measuring/difference.js';
import { takenIn } from '../../../domain/measuring/measurement-set.js';
import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';
import { dateInWords } from '../../../web/words/dates.js';
import { differenceInWords, lengthInWords } from '../../../web/words/lengths.js';
import type { ClientMeasured } from '../client.page.js';
import { wordsOf } from './measuring-rows.js';
import { earlierThan, lastTaken, standing } from './standing.js';
import { setUrl } from './take.page.js';

type Cell = { text: string; note?: string; href?: string };
export type TableWords = {
  readonly caption: string;
  readonly columns: readonly { text: string; figure?: boolean }[];
  readonly rows: readonly { cells: readonly Cell[] }[];
};

const named = (known: readonly BodyDimension[], id: string): Cell => {
  const dimension = known.find((one) => one.id === id);
  if (!dimension) return { text: id };
  const { word, iso } = wordsOf(dimension);
  return { text: word, ...(iso ? { note: iso } : {}) };
};

/** What changed in a set since each of its dimensions was measured before; by dimension. */
export const changesIn = (sets: readonly KeptSet[], set: KeptSet) => {
  const before = lastTaken(earlierThan(sets, set));
  return differences(set, before.set).map((difference) => ({
    ...difference,
    since: before.on.get(difference.dimension),
  }));
};

/** Measurements through time: the newest set first, its change beside it, then the sets before. */
export const throughTime = (
  all: readonly KeptSet[],
  known: readonly BodyDimension[],
  most: number,
): TableWords | undefined => {
  const sets = standing(all).reverse().slice(0, most);
  const [newest, ...earlier] = sets;
  if (!newest) return undefined;
  const changes = new Map(changesIn(all, newest).map((change) => [change.dimension, change]));
  const inSets = new Set(sets.flatMap(({ values }) => values.map(({ dimension }) => dimension)));
  const value = (set: KeptSet, id: string): string => {
    const taken = takenIn(set, id);
    return taken ? lengthInWords(taken.entry) : '';
  };
  return {
    caption: 'Measurements',
    columns: [
      { text: 'Measurement' },
      { text: dateInWords(newest.takenOn), figure: true },
      ...(earlier.length > 0 ? [{ text: 'Change', figure: true }] : []),
      ...earlier.map(({ takenOn }) => ({ text: dateInWords(takenOn), figure: true })),
    ],
    rows: [...inSets].map((id) => {
      const change = changes.get(id);
      return {
        cells: [
          named(known, id),
          { text: value(newest, id) },
          ...(earlier.length > 0 ? [{ text: change ? differenceInWords(change) : '' }] : []),
          ...earlier.map((set) => ({ text: value(set, id) })),
        ],
      };
    }),
  };
};

/** Every set of a client, newest first, each a line that opens it. */
export const setsInWords = (all: readonly KeptSet[], types: ReadonlyMap<string, string>): TableWords => {
  const stands = new Set(standing(all).map(({ id }) => id));
  return {
    caption: 'Every set',
    columns: [{ text: 'Taken on' }, { text: 'By' }, { text: 'Over' }, { text: 'Measured', figure: true }],
    rows: [...all].reverse().map((set) => ({
      cells: [
        {
          text: dateInWords(set.takenOn),
          href: setUrl(set),
          note: stands.has(set.id) ? (types.get(set.garmentType) ?? '') : 'taken again since',
        },
        { text: set.takenBy },
        { text: set.over },
        { text: `${set.values.length}` },
      ],
    })),
  };
};

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
