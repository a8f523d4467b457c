import { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import { type Minutes, wholeMinutes } from '../kernel/minutes.js';
import type { ThreadUse } from './hand-stitching.js';
import type { Driver, Mode, Stage } from './mode.js';

/** A share of an operation's minutes spent in one mode; the shares of an operation add up to 1. */
export type ModeShare = { readonly mode: Mode; readonly share: Decimal };

/** A seam sewn by hand, from which its minutes are reckoned; `handStitching` takes it as it is. */
export type HandStitchSpec = {
  readonly lengthMm: Decimal;
  readonly stitchesPerCm: Decimal;
  readonly stitchesPerMinute: Decimal;
  readonly thread?: ThreadUse;
};

/** One piece of work in a making plan. minutes = fixedMinutes + quantity × minutesPerUnit. */
export type Operation = {
  readonly id: string;
  /** What it counts as among past work, whatever the garment: `buttonholes`. */
  readonly kind: string;
  readonly name: string;
  readonly stage: Stage;
  readonly mode: Mode;
  /** Empty when all minutes are in `mode`. */
  readonly modeShares: readonly ModeShare[];
  /** Is it put in to be taken out again? */
  readonly basting: boolean;
  readonly driver: Driver;
  /** How many of what it goes by; 1 for `once`. */
  readonly quantity: Decimal;
  readonly fixedMinutes: Decimal;
  readonly minutesPerUnit: Decimal;
  /** True while nobody has said how long it takes; it counts as nought until then. */
  readonly needsMinutes: boolean;
  /** Starting spread on the log scale: (ln high − ln low) / 2.563. */
  readonly startingSpread?: Decimal;
  /** Are these minutes the program's starting values, unchanged by the maker? */
  readonly fromStartingValues: boolean;
  /** The seam sewn by hand from which the minutes were reckoned. */
  readonly handStitch?: HandStitchSpec;
  readonly shownToClient: boolean;
  /** The client's own words for it; `name` is shown when empty. */
  readonly clientWording: string;
};

const LONGEST_NAME = 200;
const LONGEST_WORDING = 400;
const MOST = new Decimal(1_000_000);

const isUnder = (value: Decimal): boolean => !value.isFinite() || value.isNegative();

/**
 * Planned minutes of one operation: fixed + quantity × per unit, rounded half away from zero.
 *
 * @returns whole minutes; 0 while nobody has said how long it takes
 * @see test/domain/making/operation.test.ts
 */
export const plannedMinutes = (operation: Operation): Minutes =>
  operation.needsMinutes
    ? 0
    : wholeMinutes(operation.fixedMinutes.plus(operation.quantity.times(operation.minutesPerUnit)));

/**
 * An operation, checked.
 *
 * @returns the same operation
 * @throws Invalid with one trouble per field: no name, texts too long, negative or immense numbers, mode shares that do
 *   not add up to 1
 */
export const operation = (given: Operation): Operation => {
  const troubles: FieldTrouble[] = [];
  const say = (field: string, text: string) => troubles.push({ field, text });
  if (given.name.trim() === '') say('name', 'What is to be done? Write a few words.');
  if (given.name.length > LONGEST_NAME) say('name', `Keep the name under ${LONGEST_NAME} letters.`);
  if (given.clientWording.length > LONGEST_WORDING)
    say('clientWording', `Keep the wording under ${LONGEST_WORDING} letters.`);
  for (const field of ['quantity', 'fixedMinutes', 'minutesPerUnit'] as const) {
    if (isUnder(given[field]) || given[field].gt(MOST))
      say(field, 'Write a number from 0 to 1,000,000 here.');
  }
  const shares = given.modeShares.reduce((sum, { share }) => sum.plus(share), new Decimal(0));
  if (given.modeShares.length > 0 && (!shares.eq(1) || given.modeShares.some(({ share }) => isUnder(share))))
    say('modeShares', 'The shares of the modes must add up to 100 %.');
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This operation cannot be kept.', troubles);
  return given;
};

/**
 * The operation with the maker's own minutes, which are from then on no starting value.
 *
 * @param minutes minutes each for what it goes by, or in all for `once`; not negative
 */
export const withOwnMinutes = (given: Operation, minutes: Decimal): Operation => {
  const once = given.driver === 'once';
  return operation({
    ...given,
    fixedMinutes: once ? minutes : new Decimal(0),
    minutesPerUnit: once ? new Decimal(0) : minutes,
    needsMinutes: false,
    fromStartingValues: false,
  });
};

/** What the client reads for this operation. */
export const wordingForClient = (given: Operation): string => given.clientWording.trim() || given.name;
