import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import { overlapped, PERHAPS_LEFT_RUNNING } from '../../../domain/bench/sitting.js';
import { standingEntries } from '../../../domain/bench/worked.js';
import { capitalised } from '../../../web/words/counts.js';
import { timeInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { causeInWords, whatInWords } from '../work/work-words.js';

/** Where one entry stands by itself. */
export const entryUrl = (id: string): string => `/bench/entries/${id}`;

const WAYS = {
  clock: 'by the clock',
  line: 'written down',
  sheet: 'from the making sheet',
  split: 'split from one sitting',
  correction: 'corrected',
} as const;

/** From when to when, or how it came about. */
export const spanInWords = ({ begunAt, endedAt, way }: BenchEntry, zone: string): string =>
  begunAt && endedAt ? `${timeInWords(begunAt, zone)} to ${timeInWords(endedAt, zone)}` : WAYS[way];

/** What is to be known of an entry beside its time. */
const notesOf = (entry: BenchEntry, standing: readonly BenchEntry[]): string => {
  const { begunAt, endedAt } = entry;
  const stands = standing.some(({ id }) => id === entry.id);
  const others = standing.filter(({ id }) => id !== entry.id);
  const over = stands && begunAt && endedAt ? overlapped(others, { begunAt, endedAt })[0] : undefined;
  return [
    ...(entry.of ? ['takes back'] : []),
    ...(!entry.of && !stands ? ['taken back'] : []),
    ...(entry.cause ? [`not in the plan: “${causeInWords(entry.cause)}”`] : []),
    ...(entry.note && entry.note !== PERHAPS_LEFT_RUNNING ? [entry.note] : []),
    ...(entry.note === PERHAPS_LEFT_RUNNING && stands ? ['perhaps left running'] : []),
    ...(over ? [`at the same time as ${whatInWords(over)}`] : []),
  ].join('; ');
};

/** Entries as rows of a table: what, when, how long. */
export const entryRows = (
  entries: readonly BenchEntry[],
  zone: string,
  more: (entry: BenchEntry) => { text: string; href?: string },
): object[] => {
  const standing = standingEntries(entries);
  return entries.map((entry) => ({
    cells: [
      {
        text: whatInWords(entry) || 'Work',
        href: entryUrl(entry.of ?? entry.id),
        note: notesOf(entry, standing),
      },
      more(entry),
      { text: capitalised(spanInWords(entry, zone)) },
      { text: minutesInWords(entry.minutes), figure: true },
    ],
  }));
};
