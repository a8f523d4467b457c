import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';

/** Is a line within its limit? One without a limit is told for what it is. */
export const isKept = ({ ours, floor, most, within, count }) =>
  count !== undefined ? count === 0 : !((most && ours / floor > most) || (within && ours > within));

const time = (ms) =>
  ms === undefined ? '' : ms >= 100 ? ms.toFixed(0) : ms >= 1 ? ms.toFixed(2) : ms.toFixed(4);

/** Times are milliseconds unless a line says otherwise. */
const amount = (number, unit) =>
  unit && number !== undefined ? `${number.toFixed(1)} ${unit}` : time(number);

const limitOf = ({ most, within, count }) =>
  count !== undefined ? '0' : most ? `${most}×` : within ? `${within} ms` : '';

const verdict = (row) => (limitOf(row) === '' ? '' : isKept(row) ? 'kept' : 'MISSED');

const cellsOf = (row) => [
  row.what,
  row.count === undefined ? amount(row.ours, row.unit) : String(row.count),
  row.against ?? '',
  amount(row.floor, row.unit),
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

const file = new URL('RESULTS.md', import.meta.url);

const head = () => `# What the last bench measured

- Written by \`npm run bench\`, part by part; never by hand. One part: \`npm run bench -- starts\`.
- Node ${process.version}, ${process.platform} ${process.arch}, ${cpus().length} cores (${cpus()[0]?.model.trim() ?? 'unknown'}).
- Times swing with the load of the machine, which stands with each part; a ratio compares two things measured in turn in the
  same minutes, so it holds. Where the load is far beyond the cores, even a ratio is only a hint.
- Times are milliseconds unless a line says otherwise. A line is kept when its ratio, time or count is within its limit.
`;

/** Puts what a part measured in the place of what it measured before; the other parts stay. */
export const keepResult = (part, order, { table, said }) => {
  const [, ...sections] = existsSync(file) ? readFileSync(file, 'utf8').split(/^## /m) : [''];
  const parts = new Map(sections.map((text) => [text.slice(0, text.indexOf('\n')), text]));
  parts.set(part, `${part}\n\n${said}\n\n${table}\n`);
  const known = order.filter((name) => parts.has(name));
  writeFileSync(file, `${head()}\n${known.map((name) => `## ${parts.get(name).trimEnd()}\n`).join('\n')}`);
};
