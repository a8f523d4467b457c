import type { z } from 'zod';
import { type FieldTrouble, Invalid } from '../../domain/kernel/errors.js';

/** A name with a dot in it cannot be a step of a field's path, so its parent is pointed at and the name is said. */
const fieldTrouble = (path: readonly PropertyKey[], text: string): FieldTrouble => {
  const at = path.findIndex((step) => String(step).includes('.'));
  if (at < 0) return { field: path.join('.'), text };
  return { field: path.slice(0, at).join('.'), text: `${path.slice(at).join(' ')}: ${text}` };
};

const KINDS: Readonly<Record<string, string>> = {
  object: 'a JSON object',
  record: 'a JSON object',
  array: 'a list',
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
};

/** Zod's own words are for programmers; where a schema brings none of its own, these stand in. */
const sentenceOf = (issue: z.core.$ZodIssue): string => {
  if (!issue.message.startsWith('Invalid')) return issue.message;
  if (issue.code === 'invalid_type') return `This must be ${KINDS[issue.expected] ?? issue.expected}.`;
  if (issue.code === 'invalid_key') return issue.issues[0]?.message ?? 'This is no name for a field here.';
  return 'This cannot be meant here.';
};

const troublesOf = (issue: z.core.$ZodIssue): FieldTrouble[] =>
  issue.code === 'unrecognized_keys'
    ? issue.keys.map((key) =>
        fieldTrouble([...issue.path, key], `There is no field “${key.slice(0, 80)}” here.`),
      )
    : [fieldTrouble(issue.path, sentenceOf(issue))];

const MOST_NAMED = 50;

/**
 * Reads a JSON body by its schema.
 *
 * @throws Invalid naming the fields at fault, the first fifty of them
 */
export const parseJson = <S extends z.ZodType>(schema: S, sent: unknown): z.output<S> => {
  const result = schema.safeParse(sent);
  if (result.success) return result.data;
  const fields = result.error.issues.flatMap(troublesOf).slice(0, MOST_NAMED);
  throw new Invalid(fields.length === 1 ? fields[0]!.text : 'Some fields need another look.', fields);
};
