import { Invalid } from '../../../domain/kernel/errors.js';
import { mustFit } from '../../../web/tables/read-table.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { CLIENT_LIST } from './import.form.js';

type Line = { readonly name: string; readonly params: string; readonly value: string };

/** Is this a list of contacts and not a table? */
export const isContacts = (text: string): boolean => /^\s*BEGIN:VCARD\s*$/im.test(text.slice(0, 4000));

/** @see RFC 6350, section 3.2: a line that begins with a space or tab goes on from the one before */
const unfolded = (text: string): string[] => text.replace(/\r?\n[ \t]/g, '').split(/\r?\n/);

const lineOf = (text: string): Line | undefined => {
  const parts = /^(?:[\w-]+\.)?([\w-]+)((?:;(?:[^":;]|"[^"]*")*)*):(.*)$/.exec(text);
  return parts
    ? { name: (parts[1] ?? '').toUpperCase(), params: (parts[2] ?? '').toUpperCase(), value: parts[3] ?? '' }
    : undefined;
};

/** @see RFC 6350, section 3.4: `\n` is a line break, and a backslash saves comma, semicolon and itself */
const plain = (value: string): string =>
  value.replace(/\\([nN,;:\\])/g, (_, sign: string) => (sign === 'n' || sign === 'N' ? '\n' : sign));

const partsOf = (value: string): string[] =>
  (value.match(/(?:\\.|[^;\\])*(?:;|$)/g) ?? []).map((part) => plain(part.replace(/;$/, '')).trim());

const HEADS = ['Name', 'Email', 'Telephone', 'Address', 'Country', 'Date of birth', 'Notes'] as const;

const first = (lines: readonly Line[], name: string): Line | undefined => {
  const all = lines.filter((line) => line.name === name);
  return all.find(({ params }) => /PREF/.test(params)) ?? all[0];
};

const nameIn = (lines: readonly Line[]): string => {
  const full = plain(first(lines, 'FN')?.value ?? '').trim();
  if (full !== '') return full;
  const [family = '', given = '', further = ''] = partsOf(first(lines, 'N')?.value ?? '');
  const built = [given, further, family].filter((part) => part !== '').join(' ');
  return built || partsOf(first(lines, 'ORG')?.value ?? '').join(', ');
};

const addressIn = (lines: readonly Line[]): { address: string; country: string } => {
  const [box = '', extended = '', street = '', town = '', region = '', code = '', country = ''] = partsOf(
    first(lines, 'ADR')?.value ?? '',
  );
  const place = [code, town].filter((part) => part !== '').join(' ');
  const address = [box, extended, street, place, region].filter((part) => part !== '').join('\n');
  return { address, country };
};

const dayIn = (value: string): string =>
  value.replace(/^(\d{4})(\d{2})(\d{2})(?:T.*)?$/, '$1-$2-$3').replace(/T.*$/, '');

const rowOf = (lines: readonly Line[]): string[] => {
  const { address, country } = addressIn(lines);
  const phone = (first(lines, 'TEL')?.value ?? '').replace(/^tel:/i, '');
  return [
    nameIn(lines),
    plain(first(lines, 'EMAIL')?.value ?? '').replace(/^mailto:/i, ''),
    plain(phone).replace(/;ext=/i, ' ext. '),
    address,
    country,
    dayIn(first(lines, 'BDAY')?.value ?? ''),
    plain(first(lines, 'NOTE')?.value ?? ''),
  ];
};

/**
 * Reads contacts as vCard 3.0 or 4.0; pictures and everything the studio has no use for are left where they are.
 *
 * @throws Invalid when a card is not closed, or there are too many
 * @see RFC 6350 (4.0) and RFC 2426 (3.0)
 */
export const readContacts = (text: string): TextTable => {
  const rows: { line: number; cells: string[] }[] = [];
  let open: Line[] | undefined;
  for (const line of unfolded(text)) {
    const said = lineOf(line.trim());
    if (said?.name === 'BEGIN' && said.value.trim().toUpperCase() === 'VCARD') {
      if (open) throw unclosed(rows.length + 1);
      open = [];
    } else if (said?.name === 'END' && open) {
      rows.push({ line: rows.length + 1, cells: rowOf(open) });
      open = undefined;
    } else if (said && open) open.push(said);
  }
  if (open) throw unclosed(rows.length + 1);
  mustFit(rows.length, HEADS.length, CLIENT_LIST);
  return { heads: HEADS, rows };
};

const unclosed = (card: number): Invalid =>
  Invalid.field('file', `The contact number ${card} has no end. Is the file whole?`);
