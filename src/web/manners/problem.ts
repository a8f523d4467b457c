import { Stale, Trouble, type TroubleKind } from '../../domain/kernel/errors.js';

/** RFC 9457 problem details. */
export type Problem = {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly code: string;
  readonly detail?: string;
  readonly errors?: readonly { readonly pointer: string; readonly detail: string }[];
  readonly present?: unknown;
  readonly reference?: string;
};

const STATUS: Record<TroubleKind, number> = {
  invalid: 422,
  'not-found': 404,
  conflict: 409,
  'not-allowed': 403,
  'too-many': 429,
  // Insufficient Storage, RFC 4918.
  'no-room': 507,
};

const TITLES: Record<TroubleKind, string> = {
  invalid: 'This cannot be meant',
  'not-found': 'There is no such thing',
  conflict: 'It does not fit what is there',
  'not-allowed': 'Not allowed',
  'too-many': 'Too many tries',
  'no-room': 'The disk is full',
};

export const statusOf = (trouble: Trouble): number => STATUS[trouble.kind];

/** A field path such as `lines.2.quantity` as a JSON Pointer (RFC 6901); what is a pointer already stays one. */
export const pointerOf = (field: string): string =>
  field === '' || field.startsWith('/')
    ? field
    : `/${field
        .split('.')
        .map((step) => step.replaceAll('~', '~0').replaceAll('/', '~1'))
        .join('/')}`;

/** @param ifMatch was the change sent with If-Match? Then a stale one is 412 and carries the present version. */
export const problemOf = (trouble: Trouble, ifMatch = false): Problem => {
  const stale = trouble instanceof Stale && ifMatch;
  return {
    type: 'about:blank',
    title: TITLES[trouble.kind],
    status: stale ? 412 : STATUS[trouble.kind],
    code: trouble.code,
    detail: trouble.message,
    ...(trouble.fields.length > 0
      ? { errors: trouble.fields.map(({ field, text }) => ({ pointer: pointerOf(field), detail: text })) }
      : {}),
    ...(trouble instanceof Stale ? { present: trouble.present } : {}),
  };
};
