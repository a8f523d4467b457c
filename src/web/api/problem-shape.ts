/** How every trouble is told, as JSON Schema. @see RFC 9457; RFC 6901 for the pointers */
export const PROBLEM_SHAPE = {
  type: 'object',
  description:
    'What went wrong, and what to do about it. `code` is stable and meant for programs; the sentences are for people ' +
    'and may be worded better one day.',
  required: ['type', 'title', 'status', 'code'],
  properties: {
    type: { type: 'string', const: 'about:blank' },
    title: { type: 'string' },
    status: { type: 'integer' },
    code: { type: 'string', examples: ['invalid', 'not-found', 'stale', 'shortfall'] },
    detail: { type: 'string' },
    errors: {
      type: 'array',
      description: 'The fields at fault.',
      items: {
        type: 'object',
        required: ['pointer', 'detail'],
        properties: {
          pointer: { type: 'string', description: 'JSON Pointer into the body that was sent.' },
          detail: { type: 'string' },
        },
      },
    },
    present: { description: 'The present version, where a change came too late.' },
    reference: { type: 'string', description: 'What a fault of the program is found by in its log.' },
  },
  examples: [
    {
      type: 'about:blank',
      title: 'This cannot be meant',
      status: 422,
      code: 'invalid',
      detail: 'Give a margin or a markup, not both.',
      errors: [{ pointer: '/pricing/markup', detail: 'Give a margin or a markup, not both.' }],
    },
  ],
} as const;

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
});

/** Answers that any route may give, by the name they are pointed at with. */
export const PROBLEM_ANSWERS = {
  NotSignedIn: problem('Not signed in: send a bearer token, or sign in.'),
  NotFound: problem('There is no such thing.'),
  ComesTooLate: problem('Somebody changed it meanwhile; the present version is in the answer.'),
  TooLarge: problem('The body is larger than this route takes.'),
  NotJson: problem('The body is not said to be JSON.'),
  CannotBeMeant: problem('Fields that cannot be meant, each with its pointer and a sentence.'),
  Trouble: problem('Any other trouble.'),
};
