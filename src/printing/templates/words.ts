import Handlebars from 'handlebars';
import { fieldId, fieldOf } from './field.js';
import type { FormModel } from './page-model.js';
import { SafePicture } from './safe-picture.js';

type Named = Record<string, unknown>;

const isThere = (value: unknown): boolean => value !== undefined && value !== null && value !== '';

const has = (model: Named | undefined, name: string): boolean =>
  model !== undefined && Object.hasOwn(model, name) && isThere(model[name]);

/**
 * The few words a template may use beside Handlebars' own. All pure, none formats.
 * Handlebars adds its options as the last argument of each.
 */
export const templateWords = {
  eq: (left: unknown, right: unknown): boolean => left === right,

  has,

  optional: (model: Named | undefined, name: string, ...rest: unknown[]): unknown =>
    has(model, name) ? model?.[name] : rest.length > 1 ? rest[0] : '',

  list: (...given: unknown[]): unknown[] => given.slice(0, -1),

  hash: (options: { hash: Named }): Named => ({ ...options.hash }),

  field: (form: FormModel, name: string, hint: unknown) => fieldOf(form, name, isThere(hint)),

  'field-id': (form: FormModel, name: string): string => fieldId(form, name),

  picture: (drawing: unknown): Handlebars.SafeString => {
    if (!(drawing instanceof SafePicture)) {
      throw new Error('"picture" places only a SafePicture made by our own picture code.');
    }
    return new Handlebars.SafeString(drawing.markup);
  },
};
