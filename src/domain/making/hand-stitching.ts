import { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';

/** Sewing thread: how much a seam eats, how long a needleful is, and what changing it costs. */
export type ThreadUse = {
  /** Length of thread per length of seam, such as 4. */
  readonly perSeamLength: Decimal;
  /** One needleful, millimetres. */
  readonly lengthMm: Decimal;
  readonly changeMinutes: Decimal;
};

export type HandSeam = {
  readonly lengthMm?: Decimal;
  readonly stitchesPerCm?: Decimal;
  readonly stitchesPerMinute: Decimal;
  /** Counted stitches; win over length × density. */
  readonly stitches?: Decimal;
  readonly thread?: ThreadUse;
};

export type StitchingTime = {
  readonly stitches: Decimal;
  readonly threadChanges: number;
  readonly minutes: Decimal;
};

const mustBe = (ok: boolean | undefined, field: string, text: string): FieldTrouble[] =>
  ok ? [] : [{ field, text }];

const troublesOf = (seam: HandSeam): FieldTrouble[] => {
  const { lengthMm, stitchesPerCm, stitches, thread } = seam;
  const counted = stitches !== undefined;
  return [
    ...mustBe(seam.stitchesPerMinute.gt(0), 'stitchesPerMinute', 'The pace is above 0 stitches a minute.'),
    ...mustBe(!counted || stitches.gte(0), 'stitches', 'A number of stitches cannot be below 0.'),
    ...mustBe(
      (counted && !thread) || lengthMm?.gte(0),
      'lengthMm',
      'Give the length of the seam, 0 or more.',
    ),
    ...mustBe(
      counted || stitchesPerCm?.gte(0),
      'stitchesPerCm',
      'Give stitches to the centimetre, 0 or more.',
    ),
    ...mustBe(!thread || thread.perSeamLength.gte(0), 'thread.perSeamLength', 'Thread use is 0 or more.'),
    ...mustBe(!thread || thread.lengthMm.gt(0), 'thread.lengthMm', 'A needleful is longer than 0.'),
    ...mustBe(
      !thread || thread.changeMinutes.gte(0),
      'thread.changeMinutes',
      'A change takes 0 minutes or more.',
    ),
  ];
};

/**
 * How long a hand seam takes: stitches / pace + threads × minutes a change.
 *
 * Stitches = length × density unless they were counted; threads = length × use / needleful, rounded up to whole ones,
 * threading the first included.
 *
 * @param seam lengths in millimetres, density per centimetre, pace per minute
 * @returns stitches and minutes, unrounded, and whole thread changes
 * @throws Invalid naming each field that is missing or cannot be meant
 * @see G. R. Cooper, The Invention of the Sewing Machine (Smithsonian, 1968), appendix I, for paces;
 *   test/reference/making/hand-stitching.test.ts WS-12, WS-13
 */
export const handStitching = (seam: HandSeam): StitchingTime => {
  const troubles = troublesOf(seam);
  const [first] = troubles;
  if (first) throw new Invalid(first.text, troubles);
  const lengthMm = seam.lengthMm ?? new Decimal(0);
  const stitches = seam.stitches ?? lengthMm.div(10).times(seam.stitchesPerCm ?? 0);
  const threads = seam.thread
    ? lengthMm.times(seam.thread.perSeamLength).div(seam.thread.lengthMm).toDecimalPlaces(20).ceil()
    : new Decimal(0);
  const changing = threads.times(seam.thread?.changeMinutes ?? 0);
  return {
    stitches,
    threadChanges: threads.toNumber(),
    minutes: stitches.div(seam.stitchesPerMinute).plus(changing),
  };
};
