import { Invalid } from '../../domain/kernel/errors.js';

/** Nothing this program takes lies half as deep; what is read by functions that call themselves must not be deeper. */
const DEEPEST = 64;

const holdsNul = (value: unknown, depth = 0): boolean => {
  if (typeof value === 'string') return value.includes('\u0000');
  if (typeof value !== 'object' || value === null) return false;
  if (depth === DEEPEST)
    throw new Invalid(`Fields lie in one another at most ${DEEPEST} deep.`, [], 'too-deep');
  return Object.entries(value).some(([name, one]) => name.includes('\u0000') || holdsNul(one, depth + 1));
};

/**
 * U+0000 is no letter anybody types, and PostgreSQL keeps none: it is refused at the threshold, in addresses and bodies.
 * Forms lose it silently when they are read, so only what programs send is looked at.
 *
 * Bodies that are nested deeper than anything meant are refused in the same walk.
 *
 * @throws Invalid
 */
export const refuseNul = (url: string, body: unknown): void => {
  if (/%00/.test(url)) throw new Invalid('An address holds no null character.', [], 'null-character');
  if (holdsNul(body)) throw new Invalid('Text holds no null character (U+0000).', [], 'null-character');
};
