import {
  CUT_QUESTIONS,
  type CutDocument,
  type CutQuestion,
  checkCutting,
} from '../../../domain/commissions/cutting.js';
import { type GarmentMark, standingMarks } from '../../../domain/commissions/garment-mark.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSubject } from '../open-commission.js';
import { beforeCutting } from './before-cutting.js';

export type CuttingSaid = {
  readonly on: CalendarDate;
  readonly words: string;
  readonly answers: Readonly<
    Record<CutQuestion, { readonly isSo: boolean | undefined; readonly words: string }>
  >;
};

/**
 * Records that a garment was cut, and freezes the measurements it was cut by.
 *
 * @throws Invalid where a question has no answer, or is answered "not yet" without words; Conflict when it was cut before, or
 *   is closed or cancelled
 */
export const cutGarment = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  said: CuttingSaid,
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const marks = standingMarks(await garmentMarkBook.ofGarment(writing, garmentId));
    if (marks.some(({ kind }) => kind === 'cut'))
      throw new Conflict(
        'It is marked as cut already. Take that back first, with its reason.',
        'cut-already',
      );
    const { set, known } = await beforeCutting(writing, garment, said.on);
    const answers = checkCutting(
      CUT_QUESTIONS.map((question) => ({
        question,
        ...said.answers[question],
        known: known[question].words,
      })),
    );
    const document: CutDocument = { set, answers };
    writing.says(`Marked the ${garment.name} as cut`, garmentSubject(garment));
    return garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'cut',
      operationId: undefined,
      on: said.on,
      words: said.words,
      document: JSON.stringify(document),
    });
  });

/** What was frozen when a garment was cut. */
export const cutDocumentOf = ({ document }: Pick<GarmentMark, 'document'>): CutDocument =>
  document === '' ? { set: undefined, answers: [] } : (JSON.parse(document) as CutDocument);
