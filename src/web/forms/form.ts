import { randomUUID } from 'node:crypto';
import { Stale, Trouble } from '../../domain/kernel/errors.js';
import type { FieldQuestion, FormModel } from '../../printing/templates/page-model.js';
import { statusOf } from '../manners/problem.js';
import type { PageWords } from '../reply.js';
import { page, type Reply } from '../reply.js';
import type { Typed } from './typed.js';

/** Asks "is that right?" about fields; the form comes back with a box to tick beside each. */
export class Asked extends Trouble {
  constructor(readonly questions: readonly FieldQuestion[]) {
    super(
      'invalid',
      'asked',
      'Please look at this once more.',
      questions.map(({ field, text }) => ({ field, text })),
    );
  }
}

/** A form as it is first shown. */
export const freshForm = (
  action: string,
  values: Record<string, string> = {},
  version?: number,
): FormModel => ({
  action,
  method: 'post',
  once: randomUUID(),
  values,
  errors: [],
  ...(version === undefined ? {} : { version: String(version) }),
});

/** The version a form was read at; none when the form carries none. */
export const versionSeen = (typed: Typed): number | undefined =>
  /^\d{1,9}$/.test(typed.version ?? '') ? Number(typed.version) : undefined;

/**
 * Carries out what a form asks. When somebody's trouble stands in the way, the same form comes back with everything
 * typed kept and the trouble beside the fields: 422, or 409 where another person was faster.
 *
 * @param act what to do; answers where to go
 * @param again draws the form's page anew round the given form
 * @param words turns a present row into the form's words, so that both versions can be shown side by side
 */
export const submit = async (
  typed: Typed,
  act: () => Promise<Reply>,
  again: (
    form: FormModel,
  ) => Promise<{ template: string; words: PageWords }> | { template: string; words: PageWords },
  words: (present: Stale['present']) => Promise<Record<string, string>> | Record<string, string> = () => ({}),
): Promise<Reply> => {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof Trouble) || error.kind === 'not-found' || error.code === 'already-done')
      throw error;
    const { once: _, version, ...values } = typed;
    const present = error instanceof Stale ? error.present : undefined;
    const form: FormModel = {
      ...freshForm('', values),
      ...(present
        ? { version: String(present.version), other: await words(present) }
        : version
          ? { version }
          : {}),
      errors: errorsOf(error),
      ...(error instanceof Asked ? { questions: [...error.questions] } : {}),
    };
    const drawn = await again(form);
    return page(
      drawn.template,
      { ...drawn.words, form: { ...form, action: drawn.words.form?.action ?? '' } },
      statusOf(error),
    );
  }
};

const errorsOf = (error: Trouble): { field: string; text: string }[] => {
  if (error instanceof Asked) return [];
  const fields = error.fields.map(({ field, text }) => ({ field, text }));
  return fields.length > 0 ? fields : [{ field: '', text: error.message }];
};
