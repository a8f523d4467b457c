import type { Lot } from '../../../domain/stock/lot.js';

/** Where a lot came from, in words. */
export const originInWords = ({ origin, age }: Pick<Lot, 'origin' | 'age'>): string => {
  const word = { bought: '', stash: 'stash', offcut: 'offcut', custody: 'the client’s own' }[origin];
  const aged = { new: '', old: 'old', unknown: 'of unknown age' }[age];
  return [word, aged].filter(Boolean).join(', ');
};
