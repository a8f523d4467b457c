import type { z } from 'zod';
import { Invalid } from '../../domain/kernel/errors.js';
import type { Typed } from './typed.js';

/** Names that forms carry beside what people type. */
const NOT_TYPED = new Set(['once', 'version', 'commit']);

/**
 * Reads what was sent by a schema.
 *
 * @throws Invalid naming every field at fault
 */
export const parse = <S extends z.ZodType>(schema: S, sent: unknown): z.output<S> => {
  const result = schema.safeParse(sent);
  if (result.success) return result.data;
  const fields = result.error.issues.map((issue) => ({
    field:
      issue.code === 'unrecognized_keys' ? [...issue.path, issue.keys[0]].join('.') : issue.path.join('.'),
    text: issue.code === 'unrecognized_keys' ? `There is no field “${issue.keys[0]}” here.` : issue.message,
  }));
  throw new Invalid(fields.length === 1 ? fields[0]!.text : 'Some fields need another look.', fields);
};

/** Reads a form by a schema; what the form carries beside the typed fields is left out. */
export const parseForm = <S extends z.ZodType>(schema: S, typed: Typed): z.output<S> =>
  parse(
    schema,
    Object.fromEntries(
      Object.entries(typed).filter(([name]) => !NOT_TYPED.has(name) && !name.startsWith('confirm.')),
    ),
  );

/** Was this question of an earlier round answered with yes? */
export const isConfirmed = (typed: Typed, name: string): boolean => typed[name] === 'yes';
