/** The stages of a garment, in order. */
export const STAGES = ['draft', 'cut', 'baste', 'fit', 'make', 'finish'] as const;
export type Stage = (typeof STAGES)[number];

/** How the minutes are spent. Basting and thread marks are `hand`; laying, cutting and ripping down are `bench`. */
export const MODES = ['hand', 'machine', 'press', 'bench', 'fitting', 'desk'] as const;
export type Mode = (typeof MODES)[number];

/** How a garment is to be made, from most to least hand work. */
export const MAKES = ['all-hand', 'hand-where-it-shows', 'machine-hand-finished', 'machine'] as const;
export type Make = (typeof MAKES)[number];

/** What an operation's time goes by; `once` is done once a garment. */
export const DRIVERS = ['once', 'each', 'cm', 'cm2', 'm'] as const;
export type Driver = (typeof DRIVERS)[number];

/** The stages in words. */
export const STAGE_WORDS: Readonly<Record<Stage, string>> = {
  draft: 'Draft',
  cut: 'Cut',
  baste: 'Baste',
  fit: 'Fit',
  make: 'Make',
  finish: 'Finish',
};

/** The modes in words, for a column or a sentence. */
export const MODE_WORDS: Readonly<Record<Mode, string>> = {
  hand: 'by hand',
  machine: 'by machine',
  press: 'at the press',
  bench: 'at the bench',
  fitting: 'fitting',
  desk: 'at the desk',
};

/** The makes in words. */
export const MAKE_WORDS: Readonly<Record<Make, string>> = {
  'all-hand': 'all hand',
  'hand-where-it-shows': 'hand where it shows',
  'machine-hand-finished': 'machine with hand finishing',
  machine: 'machine',
};

/** What the quantity of an operation counts, in words: `11 each`, `340 cm of seam`. */
export const DRIVER_WORDS: Readonly<Record<Driver, string>> = {
  once: 'once',
  each: 'each',
  cm: 'cm of seam',
  cm2: 'cm²',
  m: 'm',
};

const oneOf =
  <T extends string>(known: readonly T[]) =>
  (text: string): text is T =>
    known.some((one) => one === text);

/** Is this one of the stages? */
export const isStage = oneOf(STAGES);
/** Is this one of the modes? */
export const isMode = oneOf(MODES);
/** Is this one of the makes? */
export const isMake = oneOf(MAKES);
/** Is this something an operation can go by? */
export const isDriver = oneOf(DRIVERS);
