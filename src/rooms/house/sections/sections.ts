import { NotFound } from '../../../domain/kernel/errors.js';
import { hours } from './hours.js';
import { identity } from './identity.js';
import { invoices } from './invoices.js';
import { keys } from './keys.js';
import { letterhead } from './letterhead.js';
import { pricing } from './pricing.js';
import { quotes } from './quotes.js';
import type { Section } from './section.js';
import { tax } from './tax.js';
import { units } from './units.js';

/** The subjects of the house, in the order of its table of contents. */
export const sections: readonly Section[] = [
  identity,
  letterhead,
  units,
  tax,
  pricing,
  quotes,
  invoices,
  hours,
  keys,
];

/** @throws NotFound */
export const sectionAt = (path: string): Section => {
  const section = sections.find((one) => one.path === path);
  if (!section) throw new NotFound('page in the house');
  return section;
};
