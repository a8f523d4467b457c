/** A long list in parts, in order: a database takes a limited number of parameters in one statement. */
export function* inParts<T>(all: readonly T[], most: number): Generator<T[]> {
  for (let from = 0; from < all.length; from += most) yield all.slice(from, from + most);
}
