const LN_SQRT_2PI = 0.9189385332046728;

/**
 * What Stirling's formula leaves out of ln Gamma(x): ln Gamma(x) = (x - 1/2) ln x - x + ln sqrt(2 pi) + rest.
 *
 * @param x any number from 10 up
 * @returns the rest, about 1 / (12 x), to full precision
 * @see NIST Digital Library of Mathematical Functions, 5.11.1; test/reference/estimating/quantiles.test.ts
 */
export const stirlingRest = (x: number): number => {
  const y = 1 / (x * x);
  return (
    (1 / 12 -
      y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y * (1 / 1188 - y * (691 / 360360 - y / 156)))))) /
    x
  );
};

/**
 * The natural logarithm of the gamma function, by Stirling's series after stepping small arguments up to 10.
 *
 * @param x above 0
 * @returns ln Gamma(x)
 * @see NIST Digital Library of Mathematical Functions, 5.5.1 and 5.11.1
 */
export const logGamma = (x: number): number => {
  let product = 1;
  let y = x;
  while (y < 10) {
    product *= y;
    y += 1;
  }
  return (y - 0.5) * Math.log(y) - y + LN_SQRT_2PI + stirlingRest(y) - Math.log(product);
};

/**
 * ln(1 + d) - d without losing digits near d = 0.
 *
 * @param d above -1
 * @returns the difference, never above 0
 */
export const log1pMinus = (d: number): number => {
  if (Math.abs(d) > 0.1) return Math.log1p(d) - d;
  let term = d;
  let sum = 0;
  for (let n = 2; n < 40; n += 1) {
    term *= -d;
    const step = term / n;
    sum += step;
    if (Math.abs(step) < 1e-18 * Math.abs(sum)) break;
  }
  return sum;
};
