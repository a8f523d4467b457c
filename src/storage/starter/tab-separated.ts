import { Invalid } from '../../domain/kernel/errors.js';

/**
 * The lines of a text whose first line names its columns, separated by tabs; nothing is quoted.
 *
 * @throws Invalid when the columns are not those expected, or a line has more or fewer
 */
export const linesOf = <Column extends string>(
  text: string,
  columns: readonly Column[],
): readonly Record<Column, string>[] => {
  const [head = '', ...lines] = text.split(/\r?\n/).filter((line) => line !== '');
  if (head !== columns.join('\t')) throw new Invalid(`These columns were expected: ${columns.join(', ')}.`);
  return lines.map((line, place) => {
    const cells = line.split('\t');
    if (cells.length !== columns.length)
      throw new Invalid(`Line ${place + 2} has ${cells.length} columns, not ${columns.length}.`);
    return Object.fromEntries(columns.map((column, index) => [column, cells[index] ?? ''])) as Record<
      Column,
      string
    >;
  });
};
