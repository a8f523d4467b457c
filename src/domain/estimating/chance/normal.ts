const along = (coefficients: readonly number[], x: number): number => {
  let sum = 0;
  for (const c of coefficients) sum = sum * x + c;
  return sum;
};

const CENTRE = [
  [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
    1971.5909503065513, 133.14166789178438, 3.3871328727963665,
  ],
  [
    5226.495278852546, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
    687.1870074920579, 42.31333070160091, 1,
  ],
] as const;
const SHOULDER = [
  [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1,
  ],
] as const;
const TAIL = [
  [
    2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
    0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  [
    2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
    0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
  ],
] as const;

/**
 * The value that a standard normal quantity stays below with chance p.
 *
 * @param p a chance, 0 to 1
 * @returns the quantile; minus or plus infinity at 0 and 1; relative error about 1e-16
 * @see Wichura, "Algorithm AS 241: The Percentage Points of the Normal Distribution", Applied Statistics 37
 *   (1988); test/reference/estimating/quantiles.test.ts
 */
export const normalQuantile = (p: number): number => {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * along(CENTRE[0], r)) / along(CENTRE[1], r);
  }
  const tail = q < 0 ? p : 1 - p;
  if (tail <= 0) return q < 0 ? -Infinity : Infinity;
  const r = Math.sqrt(-Math.log(tail));
  const [shape, shift] = r <= 5 ? [SHOULDER, 1.6] : [TAIL, 5];
  const size = along(shape[0], r - shift) / along(shape[1], r - shift);
  return q < 0 ? -size : size;
};

/** The density of the standard normal at x. */
export const normalDensity = (x: number): number => 0.3989422804014327 * Math.exp(-0.5 * x * x);

const HART_ABOVE = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871,
  221.213596169931, 220.206867912376,
];
const HART_BELOW = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674,
  637.333633378831, 793.826512519948, 440.413735824752,
];

/**
 * The chance that a standard normal quantity stays below x.
 *
 * @param x any number
 * @returns a chance, 0 to 1, error below 1e-14
 * @see Hart et al., "Computer Approximations" (1968), as given by West, "Better approximations to cumulative
 *   normal functions", Wilmott (2005); test/reference/estimating/quantiles.test.ts
 */
export const normalChance = (x: number): number => {
  const size = Math.abs(x);
  if (size > 37.5) return x < 0 ? 0 : 1;
  const bell = Math.exp(-0.5 * size * size);
  const tail =
    size < 7.07106781186547
      ? (bell * along(HART_ABOVE, size)) / along(HART_BELOW, size)
      : bell / (size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))))) / 2.506628274631;
  return x < 0 ? tail : 1 - tail;
};
