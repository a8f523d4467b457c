import type { Garment } from '../../../domain/commissions/garment.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { garmentUrl } from '../commission.page.js';
import { garmentSubject } from '../open-commission.js';
import { lastCorrectionInWords } from '../patterns/garment-pattern.page.js';
import { fittingsTable, fittingsUrl } from './fitting.page.js';

/** What a job sheet says of its fittings, its pattern, and the papers of the bench. */
export const fittingsOnJob = async (reading: Reading, clock: Clock, garment: Garment): Promise<object> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const fittings = await fittingBook.ofGarment(reading, garment.id);
  const pattern = await patternBook.ofGarment(reading, garment.id);
  const url = garmentUrl(garment.commissionId, garment.id);
  return {
    any: fittings.length > 0,
    table: fittingsTable(fittings, undefined, today),
    plan: `${fittingsUrl(garment.commissionId)}/new?garment=${garment.id}`,
    pattern: pattern
      ? `Cut from the pattern ${pattern.number} on ${pattern.hook}: ${lastCorrectionInWords(pattern)}.`
      : 'Its pattern hangs on no hook yet.',
    patternUrl: `${url}/pattern`,
    photos: `/photos?of=${garmentSubject(garment)}`,
    papers: [
      { text: 'Docket', href: `${url}/docket.pdf` },
      { text: 'Making sheet', href: `${url}/making-sheet.pdf` },
      { text: 'Fitting notes', href: `${url}/fitting-notes.pdf` },
    ],
  };
};

/** What a commission's page says of its fittings: all of them by day; nothing while there are none. */
export const fittingsOnCommission = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
  garments: readonly Garment[],
): Promise<object | undefined> => {
  const fittings = await fittingBook.ofCommission(reading, commissionId);
  if (fittings.length === 0) return undefined;
  const { identity } = await studioBook.the(reading);
  const names = new Map(garments.map(({ id, name }) => [id, name]));
  return fittingsTable(fittings, names, todayIn(clock, identity.zone));
};
