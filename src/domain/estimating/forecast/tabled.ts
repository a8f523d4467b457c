/** Points of a table, and how far apart they may lie before the function itself is asked. */
const POINTS = 400;
const WIDEST = 0.2;

/**
 * A smooth function that will be asked at thousands of places: worked out at some hundred points between the least and the
 * greatest of them and read from straight lines in between. Where the places lie too far apart for that, it is asked itself.
 *
 * @param places where it will be asked
 * @param f the function; smooth on a scale of 1
 * @returns f, with an error below step²/8 times its curvature
 * @see test/domain/estimating/tabled.test.ts
 */
export const tabled = (places: Float64Array, f: (at: number) => number): ((at: number) => number) => {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const at of places) {
    if (at < least) least = at;
    if (at > most) most = at;
  }
  const step = (most - least) / POINTS;
  if (!(step > 1e-12)) {
    const only = f(least);
    return (at) => (at === least ? only : f(at));
  }
  if (step > WIDEST) return f;
  const values = Float64Array.from({ length: POINTS + 2 }, (_, i) => f(least + i * step));
  return (at) => {
    const place = (at - least) / step;
    const low = Math.max(0, Math.min(POINTS, Math.floor(place)));
    return values[low]! + (place - low) * (values[low + 1]! - values[low]!);
  };
};
