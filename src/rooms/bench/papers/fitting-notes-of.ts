import { type Correction, DIRECTION_WORDS } from '../../../domain/fitting/correction.js';
import { FITTING_KIND_WORDS, type Fitting } from '../../../domain/fitting/fitting.js';
import type { FittingNotes } from '../../../printing/papers/bench-papers.js';
import { capitalised, listInWords } from '../../../web/words/counts.js';
import { dateInWords, dayInWords } from '../../../web/words/dates.js';
import type { GarmentPapers } from './gather.js';

/** So many rows stand on the sheet, written on or empty. */
const ROWS = 11;
const LEAST_SPARE = 3;

/**
 * The notes of a fitting, of all garments tried on at it; without one, a blank sheet to write on.
 *
 * @param tried the papers of each garment of the fitting, at least one
 */
export const fittingNotesOf = (
  tried: readonly [GarmentPapers, ...GarmentPapers[]],
  fitting: Fitting | undefined,
  corrections: readonly Correction[],
): FittingNotes => {
  const [{ head, fittings }] = tried;
  const several = tried.length > 1;
  const nameOf = (id: string): string =>
    tried.find(({ garment }) => garment.id === id)?.head.garment.toLocaleLowerCase('en') ?? '';
  const next = fittings.find(({ id }) => id === fitting?.nextId);
  return {
    ...head,
    number: tried.map((one) => one.head.number).join(', '),
    garment: capitalised(listInWords(tried.map((one) => one.head.garment.toLocaleLowerCase('en')))),
    kind: fitting ? `Fitting notes: ${FITTING_KIND_WORDS[fitting.kind]}` : 'Fitting notes',
    facts: [
      { label: 'Date', text: fitting ? `${dayInWords(fitting.on)}, ${fitting.at}` : '' },
      {
        label: 'Present',
        text: fitting ? [fitting.present, fitting.guardian].filter(Boolean).join('; ') : '',
      },
      { label: 'Worn', text: fitting?.worn ?? '' },
      {
        label: 'Pattern',
        text: fitting?.patternChanged ? fitting.patternWords.replaceAll('\n', '; ') : '',
      },
    ],
    corrections: corrections.map((one) => ({
      garment: several ? nameOf(one.garmentId) : '',
      place: one.place,
      direction: DIRECTION_WORDS[one.direction],
      amount: one.amount,
    })),
    notes: (fitting?.notes ?? '').split('\n').filter((line) => line !== ''),
    spareRows: Math.max(LEAST_SPARE, ROWS - corrections.length),
    next: next ? `${dateInWords(next.on)}, ${next.at}, ${FITTING_KIND_WORDS[next.kind]}` : '',
  };
};
