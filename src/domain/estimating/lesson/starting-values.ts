/** What is believed before any garment is known. All on the log scale; judgement, not measurement. */
export interface Belief {
  /** Usual overrun: the mean of ln(actual / planned). */
  readonly m0: number;
  /** Doubt about that overall bias. */
  readonly s0: number;
  /** What one garment's operations share. */
  readonly garment: number;
  readonly type: number;
  readonly kind: number;
  /** Kind within type. */
  readonly pair: number;
  /** The three slopes: size of the operation, repeat, change not re-planned. */
  readonly slope: number;
  readonly noise: number;
  /** How many observations every starting variance is worth. */
  readonly nu0: number;
  /** How many rows the pooled noise is worth beside a kind's own. */
  readonly nuS: number;
  /** Degrees of freedom of the noise. */
  readonly noiseDegrees: number;
  /** After how many garments one counts half. */
  readonly halfLife: number;
  readonly sweeps: number;
  readonly tolerance: number;
}

/** The starting values of the whole model. Judgement: they are shown as such until garments replace them. */
export const STARTING_BELIEF: Belief = {
  m0: 0.1,
  s0: 0.35,
  garment: 0.2,
  type: 0.1,
  kind: 0.15,
  pair: 0.1,
  slope: 0.15,
  noise: 0.35,
  nu0: 4,
  nuS: 8,
  noiseDegrees: 8,
  halfLife: 40,
  sweeps: 30,
  tolerance: 2e-3,
};

/** The first-run question: do you usually run over? */
export type Overruns = 'no' | 'a-little' | 'a-lot' | 'unknown';

const USUAL: Readonly<Record<Overruns, number>> = { no: 0, 'a-little': 0.05, 'a-lot': 0.2, unknown: 0.1 };

/**
 * The starting mean of ln(actual / planned) that goes with the first-run answer.
 *
 * @param overruns the answer
 * @returns 0, 0.05, 0.20, or 0.10 where nothing was answered
 */
export const usualOverrun = (overruns: Overruns): number => USUAL[overruns];
