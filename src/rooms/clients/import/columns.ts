import { foldForSearch } from '../../../domain/clients/client.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { dimensionNamed } from '../measurements/name-dimensions.js';

/** What a column may be said to hold, beside measurements. */
export const CLIENT_COLUMNS = {
  name: 'Name',
  firstName: 'First name, before the name',
  address: 'Address, or a line of it',
  country: 'Country',
  email: 'Email',
  phone: 'Telephone',
  taxNumber: 'Tax number',
  birthDate: 'Date of birth',
  guardian: 'Guardian',
  notes: 'Notes',
  takenOn: 'Measured on',
  takenBy: 'Measured by',
} as const;
export type ClientColumn = keyof typeof CLIENT_COLUMNS;

/** What one column means: a field, or a dimension with the unit of a bare number in it. */
export type Meaning =
  | { readonly is: 'field'; readonly field: ClientColumn }
  | { readonly is: 'dimension'; readonly dimension: BodyDimension; readonly unit: string };

const GUESSES: readonly [ClientColumn, RegExp][] = [
  ['firstName', /^(first|given) ?name|^forename|^vorname|^prenom/],
  ['name', /^(name|full name|client|customer|last name|surname|family name|nachname|nom)$/],
  ['email', /mail/],
  ['phone', /phone|mobile|^tel|telefon/],
  ['country', /^country|^land$|^pays$/],
  ['address', /address|street|^town|^city|post ?code|^zip|county|strasse|^ort$|^plz$/],
  ['birthDate', /birth|^born/],
  ['taxNumber', /^(vat|tax)( number| no)?/],
  ['guardian', /guardian|parent/],
  ['notes', /^notes?$|remark|comment|bemerkung/],
  ['takenOn', /^(measured|taken)( on)?$|^date$/],
  ['takenBy', /^(measured|taken) by$/],
];

/** A first guess at what a column holds, by its name; '' where nothing is likely. */
export const likelyMeaning = (head: string, known: readonly BodyDimension[]): string => {
  const folded = foldForSearch(head);
  const bare = head.replace(/[([]?\s*(cm|mm|in|inch|inches)\s*[)\]]?$/i, '').trim();
  const dimension = dimensionNamed(known, bare);
  if (dimension) return `d.${dimension.id}`;
  return GUESSES.find(([, pattern]) => pattern.test(folded))?.[0] ?? '';
};

/** The unit a column's name says, or the studio's. */
export const likelyUnit = (head: string, preferred: string): string => {
  const said = /\b(cm|mm|in|inch|inches)\b\s*[)\]]?$/i.exec(head)?.[1]?.toLowerCase();
  return said ? said.slice(0, 2) : preferred;
};

/** What was chosen for each column; undefined where it is left out. */
export const meaningsOf = (
  chosen: readonly { readonly to: string; readonly unit: string }[],
  known: readonly BodyDimension[],
): (Meaning | undefined)[] =>
  chosen.map(({ to, unit }) => {
    if (Object.hasOwn(CLIENT_COLUMNS, to)) return { is: 'field', field: to as ClientColumn };
    const dimension = to.startsWith('d.') ? known.find(({ id }) => id === to.slice(2)) : undefined;
    return dimension && { is: 'dimension', dimension, unit };
  });
