import { sinceCutting } from '../../../domain/commissions/cutting.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import {
  type GarmentMark,
  garmentStanding,
  STANDING_WORDS,
  standingMarks,
} from '../../../domain/commissions/garment-mark.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Difference } from '../../../domain/measuring/difference.js';
import { lastSet } from '../../../domain/measuring/measurement-set.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import type { Reading } from '../../../storage/session.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { garmentUrl } from '../commission.page.js';
import { cutDocumentOf } from '../cutting/cut-garment.js';
import { MARK_WORDS, mayTakeBack } from './take-back-mark.js';

/** Where a garment stands, what happened to it, and what changed on the body since it was cut: for its job sheet. */
export const lifeOnJob = async (
  reading: Reading,
  garment: Garment,
  today: CalendarDate,
): Promise<Record<string, unknown>> => {
  const marks = await garmentMarkBook.ofGarment(reading, garment.id);
  const standing = garmentStanding(marks);
  const url = garmentUrl(garment.commissionId, garment.id);
  const stands = standingMarks(marks).filter(({ kind }) => mayTakeBack(kind));
  const cut = stands.find(({ kind }) => kind === 'cut');
  const changed = cut ? await changedSince(reading, garment, cut, today) : [];
  const isOpen = standing === 'to-make' || standing === 'cut';
  return {
    standing: `${capitalised(STANDING_WORDS[standing])}.`,
    marks: marksTable(stands, url),
    anyMarks: stands.length > 0,
    unlikeAnswers: cut ? unlike(cut) : [],
    changed: changed.length > 0 ? await changedTable(reading, changed) : {},
    anyChanged: changed.length > 0,
    cut: isOpen && !cut ? `${url}/cut` : '',
    handOver: isOpen ? `${url}/hand-over` : '',
    cancel: isOpen ? `${url}/cancel` : '',
    uncollected: isOpen ? `${url}/uncollected` : '',
    slip: standing === 'delivered' || standing === 'closed' ? `${url}/hand-over.pdf` : '',
    aftercare: standing === 'delivered' || standing === 'closed' ? `${url}/aftercare` : '',
    cancelled: standing === 'cancelled' ? `${url}/cancelled` : '',
  };
};

const marksTable = (marks: readonly GarmentMark[], url: string): object => ({
  caption: 'What happened to it',
  quietCaption: true,
  columns: [{ text: 'What' }, { text: 'On' }, { text: 'By' }, { text: '' }],
  rows: marks.map(({ id, kind, on, who, words }) => ({
    cells: [
      { text: capitalised(mayTakeBack(kind) ? MARK_WORDS[kind] : kind), ...(words ? { note: words } : {}) },
      { text: dateInWords(on) },
      { text: who },
      { text: 'Take back', href: `${url}/marks/${id}/take-back` },
    ],
  })),
});

/** What was not so when it was cut, with the words why it went on. */
const unlike = (cut: GarmentMark): string[] =>
  cutDocumentOf(cut)
    .answers.filter(({ isSo }) => !isSo)
    .map(
      ({ question, words, known }) =>
        `${capitalised(question)} not settled when it was cut: ${words} (${known})`,
    );

const changedSince = async (reading: Reading, garment: Garment, cut: GarmentMark, today: CalendarDate) =>
  sinceCutting(
    cutDocumentOf(cut).set,
    lastSet(await measurementBook.ofClient(reading, garment.wearerId), today),
  );

const changedTable = async (reading: Reading, found: readonly Difference[]): Promise<object> => {
  const names = new Map(
    (await dimensionBook.all(reading)).map(({ id, tradeWord, name }) => [id, tradeWord || name]),
  );
  return {
    caption: 'Measured otherwise since it was cut',
    columns: [
      { text: 'Measurement' },
      { text: 'When cut', figure: true },
      { text: 'Now', figure: true },
      { text: 'Change', figure: true },
    ],
    rows: found.map(({ dimension, before, now, shown }) => ({
      cells: [
        { text: capitalised(names.get(dimension) ?? dimension) },
        { text: before?.shown ?? 'not taken' },
        { text: now.shown },
        { text: shown ?? '' },
      ],
    })),
  };
};
