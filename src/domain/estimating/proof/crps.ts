import { logBeta } from '../chance/incomplete-beta.js';
import { normalChance, normalDensity } from '../chance/normal.js';
import { studentChance, studentDensity } from '../chance/student.js';

/**
 * How far a forecast was from what happened, in the unit of the forecast: 0 is perfect, and for a forecast without
 * doubt it is the plain distance. Here for a Student t (or, with infinite degrees, a normal) forecast.
 *
 * @param y what happened
 * @param centre of the forecast
 * @param spread of the forecast, from 0 up
 * @param nu degrees of freedom, above 1
 * @returns the continuous ranked probability score, from 0 up
 * @see Jordan, Krüger and Lerch, "Evaluating Probabilistic Forecasts with scoringRules", Journal of Statistical
 *   Software 90 (2019), appendix A; Gneiting and Raftery, JASA 102 (2007); test/reference/estimating/crps.test.ts
 */
export const crps = (y: number, centre: number, spread: number, nu = Number.POSITIVE_INFINITY): number => {
  if (spread <= 0) return Math.abs(y - centre);
  const z = (y - centre) / spread;
  if (nu > 1e5)
    return spread * (z * (2 * normalChance(z) - 1) + 2 * normalDensity(z) - 1 / Math.sqrt(Math.PI));
  const last = ((2 * Math.sqrt(nu)) / (nu - 1)) * Math.exp(logBeta(0.5, nu - 0.5) - 2 * logBeta(0.5, nu / 2));
  const bend = (2 * studentDensity(z, nu) * (nu + z * z)) / (nu - 1);
  return spread * (z * (2 * studentChance(z, nu) - 1) + bend - last);
};

/**
 * The same for a forecast that is a list of equally likely values.
 *
 * @param y what happened
 * @param sorted the values, rising, at least one
 * @returns the continuous ranked probability score, from 0 up
 */
export const crpsOfDraws = (y: number, sorted: Float64Array): number => {
  const n = sorted.length;
  let away = 0;
  let apart = 0;
  for (let i = 0; i < n; i += 1) {
    away += Math.abs(sorted[i]! - y);
    apart += (2 * i + 1 - n) * sorted[i]!;
  }
  return away / n - apart / (n * n);
};
