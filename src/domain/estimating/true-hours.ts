import { mean, squaresAbout } from './algebra/moments.js';
import { studentQuantile } from './chance/student.js';

/** What is believed of one type's hours before any are known: the spread on the log scale and how much it is worth. */
export interface StartingHours {
  readonly kappa0: number;
  readonly nu0: number;
  readonly s0: number;
}

/** One garment's worth of the maker's guess, four of the spread; judgement, not measurement. */
export const STARTING_HOURS: StartingHours = { kappa0: 1, nu0: 4, s0: 0.25 };

/** Mean, degrees of freedom and variance after the news. */
export interface Learnt {
  readonly kappa: number;
  readonly nu: number;
  readonly mu: number;
  readonly variance: number;
}

/** How long a garment of one type takes. */
export interface TrueHours {
  readonly garments: number;
  readonly typical: { readonly middle: number; readonly low80: number; readonly high80: number };
  readonly next: {
    readonly '0.1': number;
    readonly '0.5': number;
    readonly '0.8': number;
    readonly '0.9': number;
  };
  /** The next one at any chance. */
  readonly nextAt: (q: number) => number;
}

/**
 * A normal mean and variance after n values, beginning at a guess: kappa_n = kappa0 + n, nu_n = nu0 + n,
 * mu_n = (kappa0 mu0 + n y) / kappa_n, s_n² = [nu0 s0² + SS + kappa0 n (y - mu0)² / kappa_n] / nu_n.
 *
 * @param values logarithms, any number of them
 * @param guess the logarithm of the guess; none leaves only the values to speak
 * @param starting the worth of the guess and the starting spread
 * @returns kappa, nu, mu and variance after the news
 * @throws RangeError if there is neither a value nor a guess
 * @see Gelman et al., "Bayesian Data Analysis", section 3.3; test/reference/estimating/true-hours.test.ts
 */
export const learnt = (
  values: readonly number[],
  guess: number | undefined,
  starting: StartingHours = STARTING_HOURS,
): Learnt => {
  const n = values.length;
  if (n === 0 && guess === undefined)
    throw new RangeError('Give at least one garment, or a guess of your own.');
  const kappa0 = guess === undefined ? 0 : starting.kappa0;
  const mu0 = guess ?? 0;
  const kappa = kappa0 + n;
  const nu = starting.nu0 + n;
  const centre = n > 0 ? mean(values) : mu0;
  const apart = (kappa0 * n * (centre - mu0) ** 2) / kappa;
  const squares = n > 0 ? squaresAbout(values, centre) : 0;
  return {
    kappa,
    nu,
    mu: (kappa0 * mu0 + n * centre) / kappa,
    variance: (starting.nu0 * starting.s0 ** 2 + squares + apart) / nu,
  };
};

/**
 * How long a garment of one type takes: a typical one, and the next one. Works the same for a pace (stitches a minute)
 * and for minutes per driver.
 *
 * Typical: exp(mu_n ± t sqrt(s_n² / kappa_n)); the next one: exp(mu_n + t_q sqrt(s_n² (1 + 1 / kappa_n))).
 *
 * @param hours hours of the garments made so far, each above 0; in any unit of time
 * @param ownGuess the maker's own guess, or the starting value, in the same unit
 * @returns hours in the same unit: the typical one with its central 80 %, the next one at four chances
 * @throws RangeError for hours that are not above 0, or if there is neither an hour nor a guess
 * @see test/reference/estimating/true-hours.test.ts
 */
export const trueHours = ({
  hours,
  ownGuess,
}: {
  hours: readonly number[];
  ownGuess?: number;
}): TrueHours => {
  for (const value of ownGuess === undefined ? hours : [...hours, ownGuess])
    if (!(value > 0 && value <= 1e9))
      throw new RangeError('Hours must be above 0 and at most 1,000,000,000.');
  const { kappa, nu, mu, variance } = learnt(
    hours.map((value) => Math.log(value)),
    ownGuess === undefined ? undefined : Math.log(ownGuess),
  );
  const near = studentQuantile(0.9, nu) * Math.sqrt(variance / kappa);
  const nextAt = (q: number) => Math.exp(mu + studentQuantile(q, nu) * Math.sqrt(variance * (1 + 1 / kappa)));
  return {
    garments: hours.length,
    typical: { middle: Math.exp(mu), low80: Math.exp(mu - near), high80: Math.exp(mu + near) },
    next: { '0.1': nextAt(0.1), '0.5': nextAt(0.5), '0.8': nextAt(0.8), '0.9': nextAt(0.9) },
    nextAt,
  };
};
