/** How a moving mean is watched. */
export interface Watch {
  readonly target: number;
  readonly deviation: number;
  /** Weight of the newest value, above 0, at most 1. */
  readonly lambda: number;
  /** Width of the limits in deviations. */
  readonly width: number;
}

/** The watch on garments made normal: lambda 0.2 and limits of 2.4. */
export const GARMENT_WATCH: Watch = { target: 0, deviation: 1, lambda: 0.2, width: 2.4 };

/** One step of the moving mean. */
export interface Step {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly alarm: 'long' | 'short' | undefined;
}

/**
 * An exponentially weighted moving mean with its limits: z_t = lambda x_t + (1 - lambda) z_(t-1), limits
 * target ± width deviation sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2t))).
 *
 * @param series values, oldest first
 * @param watch target, deviation, lambda and width
 * @returns one step for each value; `alarm` says on which side of the limits it lies
 * @see Montgomery, "Introduction to Statistical Quality Control", section 9.2; test/reference/estimating/drift.test.ts
 */
export const movingMean = (series: readonly number[], watch: Watch = GARMENT_WATCH): Step[] => {
  const { target, deviation, lambda, width } = watch;
  let value = target;
  return series.map((x, i) => {
    value = lambda * x + (1 - lambda) * value;
    const reach =
      width * deviation * Math.sqrt((lambda / (2 - lambda)) * (1 - (1 - lambda) ** (2 * (i + 1))));
    const [low, high] = [target - reach, target + reach];
    const alarm = value > high ? 'long' : value < low ? 'short' : undefined;
    return { value, low, high, alarm };
  });
};

/** What the last garments say together. */
export interface Drift {
  readonly alarm: 'long' | 'short' | undefined;
  /** How many of the latest garments in a row lie on the alarm's side of their middle. */
  readonly together: number;
}

/**
 * Whether the last garments ran long, or short, together: "the last six ran long together: has the cloth, the space or
 * the pattern changed?"
 *
 * @param z one-step-ahead residuals made normal, oldest first (the `z` of a backtest's trail)
 * @returns the alarm of the newest garment, if any, and how many in a row lie on its side
 */
export const drift = (z: readonly number[]): Drift => {
  const alarm = movingMean(z).at(-1)?.alarm;
  if (!alarm) return { alarm: undefined, together: 0 };
  let together = 0;
  for (let i = z.length - 1; i >= 0 && (alarm === 'long' ? z[i]! > 0 : z[i]! < 0); i -= 1) together += 1;
  return { alarm, together };
};
