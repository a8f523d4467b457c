import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import type { Typed } from '../../../web/forms/typed.js';

/** Reads the places of a measuring list; an empty place leaves the measurement out. @throws Invalid */
export const readMeasures = (typed: Typed): string[] => {
  const troubles: FieldTrouble[] = [];
  const placed = Object.entries(typed).flatMap(([field, text]): { id: string; place: number }[] => {
    const said = text.trim();
    if (!field.startsWith('place.') || said === '') return [];
    if (/^\d{1,4}$/.test(said)) return [{ id: field.slice('place.'.length), place: Number(said) }];
    troubles.push({ field, text: 'Write a whole number, or leave it empty.' });
    return [];
  });
  if (troubles[0]) throw new Invalid(troubles[0].text, troubles);
  // Of two with the same place, the one that stands first on the page comes first.
  return placed.sort((a, b) => a.place - b.place).map(({ id }) => id);
};
