import type { PaperLanguage } from '../house/paper-choices.js';
import { type CalendarDate, yearsBetween } from '../kernel/calendar-date.js';

/** Below this age somebody is a child: a guardian is named, and measurements are never compared with a survey. */
export const GROWN_UP_AT = 18;

/** Somebody the studio works for, or who wears what it makes. */
export type Client = {
  readonly id: string;
  readonly version: number;
  /** Short and without a name, for papers that lie about: `C-0012`. */
  readonly code: string;
  readonly name: string;
  readonly address: string;
  readonly country: string;
  readonly email: string;
  readonly phone: string;
  readonly taxNumber: string;
  readonly notes: string;
  readonly isChild: boolean;
  readonly birthDate: CalendarDate | undefined;
  /** Who is present when a child is measured. */
  readonly guardian: string;
  /** In what language papers for this client are written; '' for the house's own. */
  readonly paperLanguage: PaperLanguage | '';
};

/**
 * Is this client a child on a day? Said outright, or by the date of birth.
 *
 * @param on the day asked about
 */
export const isChildOn = (client: Pick<Client, 'isChild' | 'birthDate'>, on: CalendarDate): boolean =>
  client.birthDate ? yearsBetween(client.birthDate, on) < GROWN_UP_AT : client.isChild;

/**
 * A name as it is searched for: without accents, case or double spaces.
 *
 * @see Unicode Standard Annex 15 (compatibility decomposition)
 */
export const foldForSearch = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLocaleLowerCase('und')
    .replace(/\s+/g, ' ')
    .trim();
