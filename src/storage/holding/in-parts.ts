/** SQLite takes a limited number of parameters in one statement. */
export const inParts = <T>(all: readonly T[], most = 500): T[][] =>
  Array.from({ length: Math.ceil(all.length / most) }, (_, part) =>
    all.slice(part * most, (part + 1) * most),
  );
