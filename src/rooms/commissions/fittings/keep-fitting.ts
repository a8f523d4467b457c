import { isChildOn } from '../../../domain/clients/client.js';
import { type CorrectionWords, readCorrections } from '../../../domain/fitting/correction.js';
import {
  checkHeld,
  checkPlanned,
  FITTING_KIND_WORDS,
  type Fitting,
  mustBePlanned,
  USUAL_FITTING,
} from '../../../domain/fitting/fitting.js';
import { overlaps } from '../../../domain/fitting/fitting-time.js';
import { addDays } from '../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { type FittingWords, fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading, Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { Asked } from '../../../web/forms/form.js';
import { dateInWords } from '../../../web/words/dates.js';
import type { HeldSaid, NextSaid, NotHeldSaid, PlannedSaid } from './fitting.form.js';

export const fittingSubject = ({ commissionId, id }: Pick<Fitting, 'commissionId' | 'id'>): string =>
  `commission/${commissionId}/fitting/${id}`;

/** A fitting that belongs to the commission of the same address. @throws NotFound */
export const fittingIn = async (reading: Reading, commissionId: string, id: string): Promise<Fitting> => {
  const fitting = await fittingBook.one(reading, id);
  if (fitting.commissionId !== commissionId) throw new NotFound('fitting in this commission');
  return fitting;
};

const NOTHING_YET = {
  state: 'planned',
  present: '',
  worn: '',
  guardian: '',
  reason: '',
  patternChanged: false,
  patternWords: '',
  nextId: undefined,
} as const;

/** Plans a fitting. @throws Invalid; Conflict when a garment is closed or cancelled; Asked when another is at that time */
export const planFitting = (
  unit: UnitOfWork,
  visit: Visit,
  commissionId: string,
  { besideAnother, ...said }: PlannedSaid,
): Promise<Done<Fitting>> =>
  unit.write(visit, async (writing) => {
    checkPlanned(said);
    await mustHoldGarments(writing, commissionId, said.garmentIds);
    await askAboutAnother(writing, said, besideAnother, 'at');
    const fitting = await fittingBook.add(writing, { ...NOTHING_YET, ...said, commissionId });
    writing.says(`Planned a ${inShort(fitting)}`, fittingSubject(fitting));
    return fitting;
  });

/** Moves a planned fitting, or says otherwise what it is. @throws as `planFitting`, and Stale */
export const moveFitting = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  { besideAnother, ...said }: PlannedSaid,
  seen?: number,
): Promise<Done<Fitting>> =>
  unit.write(visit, async (writing) => {
    const present = await fittingBook.one(writing, id);
    mustBePlanned(present);
    checkPlanned(said);
    await mustHoldGarments(writing, present.commissionId, said.garmentIds);
    await askAboutAnother(writing, said, besideAnother, 'at', id);
    const fitting = await fittingBook.correct(writing, id, { ...present, ...said }, seen);
    writing.says(`Changed the ${inShort(fitting)}`, fittingSubject(fitting));
    return fitting;
  });

/**
 * Keeps what a fitting showed, or corrects what was kept of it; where the pattern was changed, its hook says so from then
 * on. A next day plans the next fitting in the same act.
 *
 * @throws Invalid, Conflict, Asked, Stale
 */
export const holdFitting = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  id: string,
  { corrections, next, ...said }: HeldSaid,
  seen?: number,
): Promise<Done<Fitting>> =>
  unit.write(visit, async (writing) => {
    const present = await fittingBook.one(writing, id);
    if (present.state !== 'held') mustBePlanned(present);
    const { identity } = await studioBook.the(writing);
    await mustHoldGarments(writing, present.commissionId, present.garmentIds);
    checkHeld(said, todayIn(clock, identity.zone), await isOfChild(writing, present.garmentIds, said.on));
    const field = { preferred: identity.lengthUnit, signed: true };
    const rows: CorrectionWords[] = readCorrections(corrections, present.garmentIds, field);
    if (next && present.nextId)
      throw new Conflict('The next fitting is planned already. Move that one.', 'next-planned');
    const nextId = next ? (await planNext(writing, present, next)).id : present.nextId;
    const words: FittingWords = { ...present, ...said, state: 'held', reason: '', nextId };
    const fitting = await fittingBook.correct(writing, id, words, seen);
    await fittingBook.keepCorrections(writing, id, rows);
    if (fitting.patternChanged) await noteOnPatterns(writing, fitting);
    writing.says(
      present.state === 'held' ? `Corrected the ${inShort(fitting)}` : `Held the ${inShort(fitting)}`,
      fittingSubject(fitting),
    );
    return fitting;
  });

/** Says that a fitting was missed or put off, and plans it anew where a day is named. @throws Conflict, Invalid, Stale */
export const notHeldFitting = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  { next, ...said }: NotHeldSaid,
  seen?: number,
): Promise<Done<Fitting>> =>
  unit.write(visit, async (writing) => {
    const present = await fittingBook.one(writing, id);
    mustBePlanned(present);
    const nextId = next ? (await planNext(writing, present, next)).id : undefined;
    const fitting = await fittingBook.correct(writing, id, { ...present, ...said, nextId }, seen);
    writing.says(
      said.state === 'missed' ? `The ${inShort(fitting)} was missed` : `Put off the ${inShort(fitting)}`,
      fittingSubject(fitting),
    );
    return fitting;
  });

const inShort = ({ kind, on }: Pick<Fitting, 'kind' | 'on'>): string =>
  `${FITTING_KIND_WORDS[kind]} of ${dateInWords(on)}`;

const planNext = async (
  writing: Writing,
  { commissionId, garmentIds, minutes }: Fitting,
  { besideAnother, ...when }: NextSaid,
): Promise<Fitting> => {
  const words = { ...when, minutes: minutes || USUAL_FITTING, garmentIds, commissionId, notes: '' };
  checkPlanned(words);
  await mustHoldGarments(writing, commissionId, garmentIds);
  await askAboutAnother(writing, words, besideAnother, 'nextAt');
  return fittingBook.add(writing, { ...NOTHING_YET, ...words });
};

/** @throws Invalid when a garment is another commission's; Conflict when it is closed or cancelled */
const mustHoldGarments = async (
  reading: Reading,
  commissionId: string,
  garmentIds: readonly string[],
): Promise<void> => {
  const own = new Set((await garmentBook.ofCommission(reading, commissionId)).map(({ id }) => id));
  if (garmentIds.some((id) => !own.has(id)))
    throw Invalid.field('garments', 'This garment is not in this commission (any more).');
  for (const id of garmentIds) await garmentMarkBook.mustBeOpen(reading, id);
};

const askAboutAnother = async (
  reading: Reading,
  said: Pick<Fitting, 'on' | 'at' | 'minutes'>,
  isMeant: boolean,
  field: string,
  self?: string,
): Promise<void> => {
  if (isMeant) return;
  const { identity } = await studioBook.the(reading);
  // A fitting late in the evening may reach into the next day.
  const others = await fittingBook.between(reading, addDays(said.on, -1), addDays(said.on, 1));
  const other = others.find(
    (one) => one.id !== self && one.state === 'planned' && overlaps(one, said, identity.zone),
  );
  if (other)
    throw new Asked([
      {
        field,
        text: `Another ${FITTING_KIND_WORDS[other.kind]} is at ${other.at} ${other.on === said.on ? 'that day' : `on ${dateInWords(other.on)}`}. Both at once?`,
        confirmName: `confirm.${field}`,
      },
    ]);
};

const isOfChild = async (reading: Reading, garmentIds: readonly string[], on: string): Promise<boolean> => {
  for (const id of garmentIds) {
    const { wearerId } = await garmentBook.one(reading, id);
    if (isChildOn(await clientBook.one(reading, wearerId), on)) return true;
  }
  return false;
};

/** The pattern of each garment says what was changed on it last; an older fitting does not hide a newer one. */
const noteOnPatterns = async (writing: Writing, fitting: Fitting): Promise<void> => {
  const patterns = await patternBook.ofGarments(writing, fitting.garmentIds);
  for (const pattern of new Map([...patterns.values()].map((one) => [one.id, one])).values())
    if (!pattern.correctedOn || pattern.correctedOn <= fitting.on)
      await patternBook.correct(writing, pattern.id, {
        ...pattern,
        lastCorrection: fitting.patternWords,
        correctedOn: fitting.on,
        fittingId: fitting.id,
      });
};
