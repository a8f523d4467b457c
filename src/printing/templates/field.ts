import type { FormModel } from './page-model.js';

/** Everything a field component shows about one field of a form. */
export interface Field {
  name: string;
  id: string;
  value: string;
  error: string | undefined;
  other: string | undefined;
  question: { text: string; confirmName: string } | undefined;
  describedBy: string;
  invalid: boolean;
}

/** The id of a field's control; the error summary links to it. */
export const fieldId = (form: FormModel, name: string): string => `field-${form.idPrefix ?? ''}${name}`;

/** Looks one field up in its form: value, error, question, the other person's text. */
export const fieldOf = (form: FormModel, name: string, hasHint: boolean): Field => {
  const id = fieldId(form, name);
  const error = form.errors.find((each) => each.field === name)?.text;
  const question = form.questions?.find((each) => each.field === name);
  const value = form.values[name] ?? '';
  const others = form.other?.[name];
  const other = others === value ? undefined : others;
  const said = [
    hasHint && 'hint',
    error !== undefined && 'error',
    other !== undefined && 'other',
    question && 'question',
  ];
  return {
    name,
    id,
    value,
    error,
    other,
    question,
    describedBy: said
      .filter(Boolean)
      .map((part) => `${id}-${part}`)
      .join(' '),
    invalid: error !== undefined,
  };
};
