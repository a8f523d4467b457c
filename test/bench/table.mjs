/** Is a line within its limit? One without a limit is told for what it is. */
export const isKept = ({ ours, floor, most, within, count }) =>
  count !== undefined ? count === 0 : !((most && ours / floor > most) || (within && ours > within));

const time = (ms) =>
  ms === undefined ? '' : ms >= 100 ? ms.toFixed(0) : ms >= 1 ? ms.toFixed(2) : ms.toFixed(4);

const limitOf = ({ most, within, count }) =>
  count !== undefined ? '0' : most ? `${most}×` : within ? `${within} ms` : '';

const verdict = (row) => (limitOf(row) === '' ? '' : isKept(row) ? 'kept' : 'MISSED');

const cellsOf = (row) => [
  row.what,
  row.count === undefined ? time(row.ours) : String(row.count),
  row.against ?? '',
  time(row.floor),
  row.floor ? `${(row.ours / row.floor).toFixed(2)}×` : '',
  limitOf(row),
  verdict(row),
  row.note,
];

/** The rows as a table in Markdown that can also be read as it stands. */
export const tableOf = (rows) => {
  const heads = ['what', 'ms', 'floor', 'floor ms', 'ratio', 'limit', '', 'how'];
  const lines = [heads, ...rows.map(cellsOf)];
  const widths = heads.map((_, column) => Math.max(...lines.map((line) => line[column].length), 3));
  const line = (cells) => `| ${cells.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
  return [
    line(heads),
    `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`,
    ...lines.slice(1).map(line),
  ].join('\n');
};
