import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import { CAUSES } from '../../../domain/costing/causes.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading as Kept } from '../../../storage/session.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised } from '../../../web/words/counts.js';
import { dayInWords, instantInWords } from '../../../web/words/dates.js';
import { minutesForField, minutesInWords } from '../../../web/words/durations.js';
import { benchCrumb, clockCrumb } from '../clock/bench.page.js';
import { causeInWords, whatInWords } from '../work/work-words.js';
import { entryUrl, spanInWords } from './entry-rows.js';

/** A form of this page that came back. */
export type EntryAgain = { readonly which: 'anew' | 'reversal'; readonly form: FormModel };

/** One entry: what it says, what became of it, and how to take it back or write it anew. */
export const entryPage = async (
  reading: Kept,
  id: string,
  again?: EntryAgain,
): Promise<{ template: string; words: PageWords }> => {
  const { zone } = (await studioBook.the(reading)).identity;
  const entry = await benchBook.one(reading, id);
  const [back] = await benchBook.reversalsOf(reading, [id]);
  const what = whatInWords(entry);
  const fresh = freshForm('', { minutes: minutesForField(Math.max(0, entry.minutes)), on: entry.on });
  const anew = again?.which === 'anew' ? again.form : fresh;
  const reversal = again?.which === 'reversal' ? again.form : freshForm('');
  return {
    template: 'bench/time/entry',
    words: {
      title: `${minutesInWords(entry.minutes)} of ${what}`,
      room: 'bench',
      crumbs: [
        benchCrumb,
        clockCrumb,
        { text: dayInWords(entry.on), href: `/bench/time?day=${entry.on}&person=${entry.personId}` },
      ],
      facts: factsOf(entry, zone),
      back: back ? `Taken back on ${instantInWords(back.writtenAt, zone)}: ${back.note}` : '',
      isReversal: entry.of ? { text: 'The entry it takes back', href: entryUrl(entry.of) } : '',
      open: !back && !entry.of,
      anewForm: { ...anew, action: `${entryUrl(id)}/anew`, idPrefix: 'anew-' },
      reversalForm: { ...reversal, action: `${entryUrl(id)}/reversal` },
      causes: CAUSES.map((cause) => ({ value: cause, text: causeRule(cause).words })),
      mayDepart: Boolean(entry.garmentId),
      split: `/bench/split?entry=${id}`,
      ...(again ? { form: again.which === 'anew' ? { ...anew, idPrefix: 'anew-' } : reversal } : {}),
    },
  };
};

const factsOf = (entry: BenchEntry, zone: string): object[] =>
  [
    { label: 'Work', text: whatInWords(entry) },
    {
      label: 'Garment',
      text: entry.garmentId ? capitalised(entry.garmentName) : 'none',
      ...(entry.garmentId ? { href: `/bench/garments/${entry.garmentId}` } : {}),
    },
    { label: 'Who', text: entry.personName },
    { label: 'Day', text: dayInWords(entry.on) },
    { label: 'When', text: spanInWords(entry, zone) },
    { label: 'Time', text: minutesInWords(entry.minutes) },
    { label: 'Not in the plan', text: causeInWords(entry.cause) },
    { label: 'Note', text: entry.note },
    { label: 'Written', text: instantInWords(entry.writtenAt, zone) },
  ].filter(({ text }) => text !== '');
