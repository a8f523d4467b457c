import { Invalid } from '../../domain/kernel/errors.js';

const holdsNul = (value: unknown): boolean => {
  if (typeof value === 'string') return value.includes('\u0000');
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(value).some(([name, one]) => name.includes('\u0000') || holdsNul(one));
};

/**
 * U+0000 is no letter anybody types, and PostgreSQL keeps none: it is refused at the threshold, in addresses and bodies.
 * Forms lose it silently when they are read, so only what programs send is looked at.
 *
 * @throws Invalid
 */
export const refuseNul = (url: string, body: unknown): void => {
  if (/%00/.test(url)) throw new Invalid('An address holds no null character.', [], 'null-character');
  if (holdsNul(body)) throw new Invalid('Text holds no null character (U+0000).', [], 'null-character');
};
