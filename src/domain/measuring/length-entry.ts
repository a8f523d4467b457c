import { compare, exactText, type Fraction, fraction, over, plus, readExact, times } from './fraction.js';
import { type LengthPart, lengthParts } from './length-parts.js';
import { isMetric, type LengthUnit, MILLIMETRES, type PreferredUnit, UNIT_WORDS } from './length-unit.js';
import { asked, type Choice, nothingTyped, type Reading, refused, understood } from './reading.js';
import { showLength } from './shown-length.js';
import { foldTyped, quoted } from './typed-text.js';

/** The tailor's note beside a measurement: a shade over (*full*) or under (*bare*). */
export type LengthNote = 'full' | 'bare';

/** One length as a person gave it. Nothing is converted and saved again: `mm` is exact, `typed` stays. */
export type LengthEntry = {
  /** The text as typed. */
  readonly typed: string;
  /** Exact millimetres as text: `977.9`, or `2921/3` where no decimal ends. */
  readonly mm: string;
  /** The unit typed; of `3 ft 2 in` the smallest. */
  readonly unit: LengthUnit;
  readonly note?: LengthNote;
  /** In the unit typed, with the note: `38 1/2 in full`. */
  readonly shown: string;
};

/** What the field is for. */
export type LengthField = {
  /** The studio's unit, taken for a bare number. */
  readonly preferred: PreferredUnit;
  /** May it be negative? Only shoulder drop, corrections and the like. */
  readonly signed?: boolean;
};

const LONGEST_TEXT = 60;
const ASK_ABOVE = fraction(3000n);
const REFUSE_ABOVE = fraction(30_000n);
const RANK: readonly LengthUnit[] = ['yd', 'ft', 'in'];
const METRIC_RANK: readonly LengthUnit[] = ['m', 'cm', 'mm'];
const NOTE = /(?:^| |(?<=[^a-z]))(full|bare)(?= |$)/g;

type Sign = '' | '+' | '-';
type Settled = LengthPart & { readonly unit: LengthUnit };

const descends = (units: readonly LengthUnit[]): boolean => {
  const rank = units.every(isMetric) ? METRIC_RANK : RANK;
  const places = units.map((unit) => rank.indexOf(unit));
  return places.every((place, index) => place >= 0 && (index === 0 || place > (places[index - 1] ?? 0)));
};

const askUnit = (numeral: string, note: string): Reading<LengthEntry> =>
  asked(`${numeral}: centimetres or inches?`, [
    { words: `${numeral} inches`, typed: `${numeral} in${note}` },
    { words: `${numeral} centimetres`, typed: `${numeral} cm${note}` },
  ]);

const settleUnits = (parts: readonly LengthPart[], preferred: PreferredUnit): readonly Settled[] | string => {
  if (parts.length === 1) return parts.map((part) => ({ ...part, unit: part.unit ?? preferred }));
  const settled = parts.map((part, index): Settled | undefined => {
    const afterFeet = index === parts.length - 1 && parts[index - 1]?.unit === 'ft';
    const unit = part.unit ?? (afterFeet ? 'in' : undefined);
    return unit && { ...part, unit };
  });
  if (parts.some((part) => part.doubt))
    return 'Write the whole number and the fraction of each part, like 3 ft 2 1/2 in.';
  const whole = settled.filter((part) => part !== undefined);
  if (whole.length < settled.length)
    return 'There are two measurements in one field. Keep one, or say the unit of each part.';
  if (!descends(whole.map((part) => part.unit)))
    return 'These units do not belong together. Write one measurement, like 3 ft 2 in or 97.8 cm.';
  return whole;
};

const choicesOf = (texts: readonly string[]): readonly Choice[] =>
  texts.map((text) => ({ words: text, typed: text }));

const askLong = (entry: LengthEntry, mm: Fraction, part: Settled): Reading<LengthEntry> => {
  const feet = (mm.n * 10n) / (mm.d * 3048n);
  const words = isMetric(part.unit) ? showLength(entry.mm, 'm') : `${feet} feet`;
  const tenth = over(mm, fraction(10n));
  const likelier = part.isFraction || compare(tenth, ASK_ABOVE) > 0 ? [] : [exactText(tenth)];
  return asked(
    `${part.numeral} ${UNIT_WORDS[part.unit]} is ${words}. Is that right?`,
    choicesOf(likelier.map((shorter) => showLength(shorter, part.unit))),
    entry,
  );
};

const settle = (
  typed: string,
  parts: readonly Settled[],
  sign: Sign,
  note: LengthNote | undefined,
): Reading<LengthEntry> => {
  const mm = parts.reduce((sum, part) => plus(sum, times(part.value, MILLIMETRES[part.unit])), fraction(0n));
  const [first, last] = [parts[0], parts.at(-1)];
  if (!first || !last || compare(mm, REFUSE_ABOVE) > 0)
    return refused(`${quoted(typed)} is longer than any body. Is the unit right?`);
  const numerals = parts.map((part) => `${part.numeral} ${part.unit}`).join(' ');
  const entry: LengthEntry = {
    typed,
    mm: exactText(sign === '-' ? fraction(-mm.n, mm.d) : mm),
    unit: last.unit,
    ...(note && { note }),
    shown: `${sign.replace('-', '−')}${numerals}${note ? ` ${note}` : ''}`,
  };
  return compare(mm, ASK_ABOVE) > 0 ? askLong(entry, mm, first) : understood(entry);
};

/** A number that can be read two ways: both as choices, unless the second is no length of a body. */
const askDoubt = (
  part: LengthPart,
  field: LengthField,
  sign: Sign,
  note: string,
): Reading<LengthEntry> | undefined => {
  if (!part.doubt) return undefined;
  const other = part.doubt.numerals.at(-1) ?? '';
  const unit = part.unit ?? field.preferred;
  if (!part.isFraction && compare(times(readExact(other), MILLIMETRES[unit]), ASK_ABOVE) > 0)
    return undefined;
  const after = part.unit ?? (field.preferred === 'in' ? 'in' : '');
  const texts = part.doubt.numerals.map((numeral) => `${sign}${numeral} ${after}`.trim() + note);
  return asked(part.doubt.sentence, choicesOf(texts));
};

const readUnnoted = (
  typed: string,
  text: string,
  field: LengthField,
  note: LengthNote | undefined,
): Reading<LengthEntry> => {
  const sign = (/^[+-]/.exec(text)?.[0] ?? '') as Sign;
  if (sign === '-' && !field.signed) return refused('A measurement of the body cannot be less than nought.');
  const parts = lengthParts(text.slice(sign.length).trim());
  if ('kind' in parts) return parts;
  const only = parts.length === 1 ? parts[0] : undefined;
  const noteTyped = note ? ` ${note}` : '';
  const doubted = only && askDoubt(only, field, sign, noteTyped);
  if (doubted) return doubted;
  if (only?.isFraction && !only.unit && field.preferred === 'cm')
    return askUnit(`${sign}${only.numeral}`, noteTyped);
  const settled = settleUnits(parts, field.preferred);
  if (typeof settled === 'string') return refused(settled);
  return settle(typed, settled, field.signed ? sign : '', note);
};

/**
 * Reads what a person typed for a measurement of the body: `38 1/2`, `38½ full`, `97,8 cm`, `3'2½"`, `0.978 m`.
 *
 * A bare number is in the studio's unit, but a bare fraction in a studio that works in centimetres is asked about, never
 * guessed. Above 3 m it asks (a slip), above 30 m it refuses; both limits are judgement, no source.
 *
 * @param typed the text as typed, any script's digits
 * @param field the studio's unit, and whether the field is signed
 * @returns `empty` when nothing was typed; `ok` with exact millimetres; `ask`; or `refuse` with a sentence
 * @see test/domain/measuring/length-entry.test.ts
 */
export const readLength = (typed: string, field: LengthField): Reading<LengthEntry> => {
  const folded = foldTyped(typed);
  if (folded === '') return nothingTyped;
  if ([...folded].length > LONGEST_TEXT)
    return refused('This is too long for a measurement. Write one, like 38 1/2 in or 97.8 cm.');
  const notes = [...folded.matchAll(NOTE)].map((found) => found[1] as LengthNote);
  if (notes.length > 1) return refused('A measurement is full or bare, not both. Keep one.');
  const text = folded
    .replace(NOTE, ' ')
    .replace(/ and (?=\d)/, ' ')
    .replace(/ +/g, ' ')
    .trim();
  return /\d/.test(text)
    ? readUnnoted(typed, text, field, notes[0])
    : refused(`${quoted(typed)} has no figures. Write it like 38 1/2 in or 97.8 cm.`);
};
