import { foldForSearch } from '../../../domain/clients/client.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import { kindOf } from '../../../domain/making/kind-of.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { isMode, MODES, type Mode, type Stage } from '../../../domain/making/mode.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';

/** What a row of a list names as its operation, as the studio knows it. */
export type NamedWork = {
  readonly kind: string;
  readonly name: string;
  readonly mode: Mode;
  readonly stage: Stage;
};

/** Work the studio has no operation for, by its mode: what the maker answers when asked what a word means. */
export const ownWork = (mode: Mode): string => `own ${mode}`;
export const OWN_WORK: readonly string[] = MODES.map(ownWork);

export type WorkSaid = { readonly said: string; readonly means: string };

/**
 * How a list's words for operations are read: by what the maker said they mean, else by the name or kind of an operation of the
 * garment type, else by that of any type.
 *
 * @returns undefined for a word nobody has said the meaning of
 */
export const workByName = (
  operations: readonly KnownOperation[],
  said: readonly WorkSaid[],
): ((word: string, typeId: string | undefined) => NamedWork | undefined) => {
  const byType = new Map<string, NamedWork>();
  const anywhere = new Map<string, NamedWork>();
  for (const { garmentType, kind, name, mode, stage } of operations)
    for (const word of [foldForSearch(name), foldForSearch(kind)]) {
      const work = { kind, name, mode, stage };
      if (!byType.has(`${garmentType} ${word}`)) byType.set(`${garmentType} ${word}`, work);
      if (!anywhere.has(word)) anywhere.set(word, work);
    }
  const meanings = new Map(said.map((one) => [foldForSearch(one.said), one]));
  return (word, typeId) => {
    const folded = foldForSearch(word);
    const find = (name: string) => byType.get(`${typeId ?? ''} ${name}`) ?? anywhere.get(name);
    const answer = meanings.get(folded);
    if (!answer || answer.means === '') return find(folded);
    const mode = answer.means.startsWith('own ') ? answer.means.slice(4) : '';
    if (isMode(mode)) return { kind: kindOf(answer.said), name: answer.said, mode, stage: 'make' };
    return find(foldForSearch(answer.means));
  };
};

/** Minutes of the type's usual plan by kind of operation. */
export const usualMinutesOf = (
  types: readonly GarmentType[],
  operations: readonly KnownOperation[],
): ((typeId: string, kind: string) => number | undefined) => {
  const known = new Map<string, ReadonlyMap<string, number>>();
  const ofType = (typeId: string): ReadonlyMap<string, number> => {
    const type = types.find(({ id }) => id === typeId);
    const found = new Map<string, number>();
    if (type)
      for (const one of startingPlan(type, 'hand-where-it-shows', operations, () => typeId).plan)
        if (plannedMinutes(one) > 0) found.set(one.kind, (found.get(one.kind) ?? 0) + plannedMinutes(one));
    known.set(typeId, found);
    return found;
  };
  return (typeId, kind) => (known.get(typeId) ?? ofType(typeId)).get(kind);
};
