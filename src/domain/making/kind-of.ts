import { foldForSearch } from '../clients/client.js';

/**
 * What an operation counts as among past work, from its name: `Inside pockets` is `inside-pockets`.
 *
 * @returns small letters, figures and hyphens, at most 80; `other` where nothing is left
 */
export const kindOf = (name: string): string =>
  foldForSearch(name)
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 80) || 'other';
