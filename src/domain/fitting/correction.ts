import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import { type LengthField, readLength } from '../measuring/length-entry.js';

/** What is to be done at a place. */
export const DIRECTIONS = [
  'let-out',
  'take-in',
  'lengthen',
  'shorten',
  'raise',
  'lower',
  'forward',
  'back',
  'pitch',
  'other',
] as const;
export type Direction = (typeof DIRECTIONS)[number];

/** Directions in words; common practice of the trade, no source. */
export const DIRECTION_WORDS: Readonly<Record<Direction, string>> = {
  'let-out': 'let out',
  'take-in': 'take in',
  lengthen: 'lengthen',
  shorten: 'shorten',
  raise: 'raise',
  lower: 'lower',
  forward: 'bring forward',
  back: 'bring back',
  pitch: 'turn the pitch',
  other: 'otherwise',
};

/** One thing to put right on a garment, as the fitting showed it. */
export type Correction = {
  readonly id: string;
  readonly fittingId: string;
  readonly garmentId: string;
  /** Where on the garment: `left shoulder`. */
  readonly place: string;
  readonly direction: Direction;
  /** As typed, with its unit; empty where no length says it. */
  readonly amount: string;
  /** Exact millimetres as text; none where no length says it. */
  readonly mm: string | undefined;
};

export type CorrectionWords = Omit<Correction, 'id' | 'fittingId'>;

/** A row of the correction table as it was typed. */
export type TypedCorrection = {
  readonly garmentId: string;
  readonly place: string;
  readonly direction: string;
  readonly amount: string;
};

/** The most corrections of one fitting. */
export const MOST_CORRECTIONS = 60;

const isDirection = (text: string): text is Direction => DIRECTIONS.some((one) => one === text);

/**
 * The rows of a correction table, checked; rows nobody wrote in are left out.
 *
 * @param garmentIds the garments of the fitting; a row without one belongs to the only one there is
 * @param field how lengths are written in this house
 * @returns in their order, with millimetres exact
 * @throws Invalid naming `corrections.ROW.FIELD` of every field at fault
 * @see test/domain/fitting/fitting.test.ts
 */
export const readCorrections = (
  rows: readonly TypedCorrection[],
  garmentIds: readonly string[],
  field: LengthField,
): CorrectionWords[] => {
  const troubles: FieldTrouble[] = [];
  const read = rows.flatMap((row, index): CorrectionWords[] => {
    if (![row.place, row.direction, row.amount].some((said) => said.trim() !== '')) return [];
    const say = (name: string, text: string): void => {
      troubles.push({ field: `corrections.${index}.${name}`, text });
    };
    const garmentId = row.garmentId || (garmentIds.length === 1 ? (garmentIds[0] ?? '') : '');
    if (!garmentIds.includes(garmentId)) say('garmentId', 'Which garment of this fitting?');
    if (row.place.trim() === '') say('place', 'Where on the garment?');
    if (row.place.trim().length > 200) say('place', 'At most 200 characters.');
    if (!isDirection(row.direction)) say('direction', 'Choose what is to be done.');
    const length = readLength(row.amount, field);
    if (length.kind === 'refuse' || length.kind === 'ask') say('amount', length.sentence);
    return [
      {
        garmentId,
        place: row.place.replace(/\s+/g, ' ').trim(),
        direction: isDirection(row.direction) ? row.direction : 'other',
        amount: length.kind === 'ok' ? length.value.shown : '',
        mm: length.kind === 'ok' ? length.value.mm : undefined,
      },
    ];
  });
  if (read.length > MOST_CORRECTIONS)
    troubles.push({ field: '', text: `A fitting holds at most ${MOST_CORRECTIONS} corrections.` });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'Some rows need another look.', troubles);
  return read;
};

/** A correction in words: `left shoulder: raise 1/4 in`. */
export const correctionInWords = ({
  place,
  direction,
  amount,
}: Pick<Correction, 'place' | 'direction' | 'amount'>): string =>
  `${place}: ${[direction === 'other' ? '' : DIRECTION_WORDS[direction], amount].filter(Boolean).join(' ') || 'see the notes'}`;
