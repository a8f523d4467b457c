import type { FieldTrouble } from '../../domain/kernel/errors.js';
import type { Choice, Reading } from '../../domain/measuring/reading.js';

export {
  asked,
  type Choice,
  confirmed,
  mapReading,
  nothingTyped,
  type Reading,
  refused,
  understood,
} from '../../domain/measuring/reading.js';

/** What a form shows beside a field that was not simply understood. */
export type FieldAnswer<T> = {
  readonly value?: T;
  readonly trouble?: FieldTrouble & { readonly choices: readonly Choice[]; readonly mayConfirm: boolean };
};

/**
 * A reading as a form needs it: the value, or what to say beside the field.
 *
 * @param whenEmpty the sentence for a field that must be filled; leave it out where empty is allowed
 */
export const fieldAnswer = <T>(field: string, reading: Reading<T>, whenEmpty?: string): FieldAnswer<T> => {
  if (reading.kind === 'ok') return { value: reading.value };
  if (reading.kind === 'empty')
    return whenEmpty === undefined
      ? {}
      : { trouble: { field, text: whenEmpty, choices: [], mayConfirm: false } };
  const choices = reading.kind === 'ask' ? reading.choices : [];
  const mayConfirm = reading.kind === 'ask' && reading.meaning !== undefined;
  return { trouble: { field, text: reading.sentence, choices, mayConfirm } };
};
