import type { EntityMetadata } from 'typeorm';

/** Tables in an order in which each stands after those it refers to. */
export const tablesInOrder = (tables: readonly EntityMetadata[]): EntityMetadata[] => {
  const done = new Set<string>();
  const ordered: EntityMetadata[] = [];
  while (ordered.length < tables.length) {
    const ready = tables.filter(
      ({ tableName, foreignKeys }) =>
        !done.has(tableName) &&
        foreignKeys.every(
          ({ referencedEntityMetadata: { tableName: target } }) => target === tableName || done.has(target),
        ),
    );
    if (ready.length === 0) throw new Error('The tables refer to each other in a circle.');
    for (const { tableName } of ready) done.add(tableName);
    ordered.push(...ready);
  }
  return ordered;
};
