import type { Client } from '../../../domain/clients/client.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict, type FieldTrouble, Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { questionAboutFiguration } from '../../../domain/measuring/figuration.js';
import { type MeasurementSet, measurementSet } from '../../../domain/measuring/measurement-set.js';
import { isChild } from '../../../domain/measuring/questions.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { type KeptSet, measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { Asked } from '../../../web/forms/form.js';
import { dateInWords } from '../../../web/words/dates.js';
import type { MeasurementWords } from './measurement.form.js';
import { nameDimensions } from './name-dimensions.js';
import { type Question, readValues } from './read-values.js';
import { earlierThan, lastTaken } from './standing.js';

/** Asks about measurements, with what may have been meant. */
export class AskedAboutMeasurements extends Asked {
  constructor(readonly about: readonly Question[]) {
    super(about.map(({ field, text }) => ({ field, text, confirmName: `${field}.confirmed` })));
  }
}

/**
 * Keeps a set of measurements. A set is never changed; one that mends another says so and stands in its place.
 *
 * @throws Invalid for what cannot be read
 * @throws AskedAboutMeasurements for what may be a slip and was not stood by
 * @throws Conflict when the set to mend was taken again already
 */
export const takeMeasurements = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  clientId: string,
  words: MeasurementWords,
): Promise<Done<KeptSet>> =>
  unit.write(visit, async (writing) => {
    const client = await clientBook.one(writing, clientId);
    await keepingBook.mustBeKept(writing, clientId);
    const set = await readSet(writing, clock, client, words);
    await measurementBook.add(writing, set);
    const again = words.insteadOf ? ' again' : '';
    writing.says(`Measured ${client.name}${again} on ${dateInWords(set.takenOn)}`, `client/${client.id}`);
    return set;
  });

const readSet = async (
  writing: Writing,
  clock: Clock,
  client: Client,
  words: MeasurementWords,
): Promise<KeptSet> => {
  const { identity } = await studioBook.the(writing);
  const sets = await measurementBook.ofClient(writing, client.id);
  const mends = mendedBy(sets, words.insteadOf);
  const child = isChild(client.birthDate, words.takenOn, client.isChild);
  if (words.garmentType !== '') await mustBeKnown(writing, words.garmentType);
  const known = await dimensionBook.all(writing);
  const names = await nameDimensions(writing, known, words.values);
  const read = readValues(names.named, {
    preferred: identity.lengthUnit,
    isChild: child,
    last: lastTaken(earlierThan(sets, { takenOn: words.takenOn, insteadOf: words.insteadOf })).set,
    mends,
  });
  const set: MeasurementSet = {
    id: writing.newId(),
    wearer: client.id,
    takenOn: words.takenOn,
    takenBy: words.takenBy,
    over: words.over,
    figuration: words.figuration,
    values: read.values,
  };
  const waiting = names.questions.length + read.questions.length;
  const troubles = [...names.troubles, ...read.troubles];
  if (child && words.guardian === '')
    troubles.push({
      field: 'guardian',
      text: 'Name the guardian who was present; a child is never measured alone.',
    });
  troubles.push(...troublesOf(set, todayIn(clock, identity.zone), troubles.length + waiting > 0));
  if (troubles.length > 0)
    throw new Invalid(troubles[0]?.text ?? 'These measurements cannot be kept.', troubles);
  const questions = [...names.questions, ...read.questions, ...aboutFiguration(words)];
  if (questions.length > 0) throw new AskedAboutMeasurements(questions);
  return { ...set, guardian: words.guardian, garmentType: words.garmentType, insteadOf: words.insteadOf };
};

/** @param mayBeEmpty values that wait for an answer are not missing */
const troublesOf = (set: MeasurementSet, today: CalendarDate, mayBeEmpty: boolean): FieldTrouble[] => {
  try {
    measurementSet(set, today);
    return [];
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    return error.fields.filter(({ field }) => !(mayBeEmpty && field === 'values'));
  }
};

const mendedBy = (sets: readonly KeptSet[], id: string | undefined): KeptSet | undefined => {
  if (id === undefined) return undefined;
  const mends = sets.find((set) => set.id === id);
  if (!mends) throw new NotFound('set of measurements');
  if (sets.some(({ insteadOf }) => insteadOf === id))
    throw new Conflict('This set was taken again already. Look at the newer one first, and mend that.');
  return mends;
};

const mustBeKnown = async (writing: Writing, type: string): Promise<void> => {
  const types = await makingBook.types(writing);
  if (!types.some(({ id }) => id === type))
    throw Invalid.field('garmentType', 'The studio makes no garment of this type. Choose one of the list.');
};

const aboutFiguration = ({ figuration, figurationConfirmed }: MeasurementWords): Question[] => {
  const text = figurationConfirmed ? undefined : questionAboutFiguration(figuration);
  return text === undefined ? [] : [{ field: 'figuration', text, choices: [], canStand: true }];
};
