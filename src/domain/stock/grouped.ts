/** Things by a key, each group in the order given. Node 20 has no Map.groupBy yet. */
export const grouped = <T>(all: readonly T[], key: (one: T) => string): Map<string, T[]> => {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(key(one));
    if (group) group.push(one);
    else groups.set(key(one), [one]);
  }
  return groups;
};
