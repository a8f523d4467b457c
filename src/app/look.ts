import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The sheets of the house in their order: what stands later goes before what stands earlier. */
const SHEETS = [
  ...['tokens', 'faces', 'text', 'layout', 'forms', 'acts', 'tables', 'parts', 'small-parts'],
  ...['measuring', 'job-sheet', 'bench', 'print'],
];

/** Where the joined sheet is asked for. */
export const LOOK = '/assets/css/look.css';

/** All sheets as one: a phone on a slow line waits for one answer instead of thirteen. */
export const joinedLook = (templates: string): string =>
  SHEETS.map((name) => readFileSync(join(templates, 'assets/css', `${name}.css`), 'utf8')).join('\n');
