import { type CalendarDate, yearsBetween } from '../kernel/calendar-date.js';
import { type BodyDimension, isSigned } from './body-dimension.js';
import { compare, type Fraction, fraction, minus, readExact, size, times } from './fraction.js';
import type { LengthEntry } from './length-entry.js';
import { type MeasurementSet, takenIn } from './measurement-set.js';
import type { Choice } from './reading.js';
import { likelySlips } from './slips.js';
import { SURVEY } from './survey-limits.js';

/** One "is that right?" about one value. The value is kept when the person says yes. */
export type MeasurementQuestion = {
  readonly dimension: string;
  readonly why: 'far-from-last-set' | 'beyond-the-survey';
  readonly sentence: string;
  /** What may have been meant instead. */
  readonly choices: readonly Choice[];
};

/** What the comparison must know of the person measured. */
export type Wearer = { readonly isChild: boolean };

/** The age from which a person is compared as an adult; local rules may differ. */
export const ADULT_FROM_YEARS = 18;

const FAR_SHARE = fraction(8n, 100n);
const FAR_AT_LEAST = fraction(15n);
const SURVEY_MARGIN = fraction(25n, 100n);
const ONE = fraction(1n);

/**
 * Is the wearer a child on that day, so that nothing is compared?
 *
 * @param bornOn the date of birth if it is known
 * @param markedAsChild the studio's own mark, which alone decides when no date is known
 */
export const isChild = (bornOn: CalendarDate | undefined, on: CalendarDate, markedAsChild = false): boolean =>
  markedAsChild || (bornOn !== undefined && yearsBetween(bornOn, on) < ADULT_FROM_YEARS);

/** Differs by more than 8 % of the last value and more than 15 mm: judgement, no source. */
const isFar = (mm: Fraction, before: Fraction): boolean => {
  const apart = size(minus(mm, before));
  return compare(apart, times(size(before), FAR_SHARE)) > 0 && compare(apart, FAR_AT_LEAST) > 0;
};

const isWithin = (mm: Fraction, column: string, margin: Fraction): boolean => {
  const limits = SURVEY[column];
  if (!limits) return true;
  const least = times(fraction(BigInt(limits.smallest)), minus(ONE, margin));
  const most = times(fraction(BigInt(limits.largest)), minus(ONE, { n: -margin.n, d: margin.d }));
  return compare(mm, least) >= 0 && compare(mm, most) <= 0;
};

const didYouMean = (choices: readonly Choice[]): string =>
  choices.length === 0 ? '' : ` Did you mean ${choices.map((choice) => choice.words).join(' or ')}?`;

const besideLast = (name: string, dimension: string, entry: LengthEntry, before: LengthEntry) => {
  const last = readExact(before.mm);
  if (!isFar(readExact(entry.mm), last)) return [];
  const choices = likelySlips(entry, (mm) => !isFar(mm, last));
  const sentence = `${name}: ${entry.shown}, and last time it was ${before.shown}. Is that right?${didYouMean(choices)}`;
  return [{ dimension, why: 'far-from-last-set' as const, sentence, choices }];
};

const besideSurvey = (name: string, dimension: string, entry: LengthEntry, column: string) => {
  if (isWithin(readExact(entry.mm), column, SURVEY_MARGIN)) return [];
  const choices = likelySlips(entry, (mm) => isWithin(mm, column, fraction(0n)));
  const sentence = `${name}: ${entry.shown} would be very unusual. Is that right?${didYouMean(choices)}`;
  return [{ dimension, why: 'beyond-the-survey' as const, sentence, choices }];
};

/**
 * The values of a set that look like a slip: far from this client's last set or, where there is none, beyond the survey's
 * smallest or largest by 25 %. A value the person stood by is not asked about again; a child is never compared.
 *
 * @param set what was measured now
 * @param last this client's last set, if there is one; it is asked first, and a value near it is never doubted
 * @param wearer is it a child?
 * @param dimensions the dimensions the studio measures
 * @returns questions in the order of the set; none for a child
 * @see test/domain/measuring/questions.test.ts
 */
export const questionsAbout = (
  set: MeasurementSet,
  last: MeasurementSet | undefined,
  wearer: Wearer,
  dimensions: readonly BodyDimension[],
): readonly MeasurementQuestion[] => {
  if (wearer.isChild) return [];
  const known = new Map(dimensions.map((dimension) => [dimension.id, dimension]));
  return set.values.flatMap(({ dimension: id, entry, confirmed }): readonly MeasurementQuestion[] => {
    const dimension = known.get(id);
    if (confirmed) return [];
    const name = dimension?.tradeWord || dimension?.name || id;
    const before = last && takenIn(last, id)?.entry;
    if (before) return besideLast(name, id, entry, before);
    if (!dimension?.survey || isSigned(dimension)) return [];
    return besideSurvey(name, id, entry, dimension.survey);
  });
};
