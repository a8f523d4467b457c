import { z } from 'zod';
import { PROBLEM_ANSWERS, PROBLEM_SHAPE } from './problem-shape.js';
import type { Route } from './read-routes.js';

const CHANGES = new Set(['post', 'put', 'patch', 'delete']);

/** What may be sent, in the words of JSON Schema 2020-12, which OpenAPI 3.1 shares. */
const schemaOf = (body: z.ZodType): object => {
  const { $schema: _dialect, ...schema } = z.toJSONSchema(body, { io: 'input', unrepresentable: 'any' });
  return schema;
};

const wordsOf = (name: string): string => {
  const words = name.replaceAll(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
};

const text = { schema: { type: 'string' } };

const parametersOf = (route: Route): object[] => [
  ...[...route.path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    ...text,
  })),
  ...route.query.map((name) => ({ name, in: 'query', ...text })),
  ...route.headers.map((name) => ({ name, in: 'header', ...text })),
  ...(CHANGES.has(route.method) ? [{ $ref: '#/components/parameters/IdempotencyKey' }] : []),
];

const bodyOf = (route: Route): object => {
  if (!route.takesBody) return {};
  const examples = Object.entries(route.described?.examples ?? {}).map(([name, value]) => [
    name.replaceAll(/[^\w.-]+/g, '-'),
    { summary: name, value },
  ]);
  const media = {
    schema: route.body ? schemaOf(route.body) : { type: 'object' },
    ...(examples.length > 0 ? { examples: Object.fromEntries(examples) } : {}),
  };
  return { requestBody: { required: true, content: { 'application/json': media } } };
};

const at = (name: keyof typeof PROBLEM_ANSWERS) => ({ $ref: `#/components/responses/${name}` });

const answersOf = (route: Route): object => ({
  '2XX': { description: 'Done.', content: { 'application/json': { schema: {} } } },
  ...(route.isOpen ? {} : { 401: at('NotSignedIn') }),
  ...(route.path.includes('{') ? { 404: at('NotFound') } : {}),
  ...(route.headers.includes('if-match') ? { 412: at('ComesTooLate') } : {}),
  ...(route.takesBody ? { 413: at('TooLarge'), 415: at('NotJson'), 422: at('CannotBeMeant') } : {}),
  default: at('Trouble'),
});

const operationOf = (route: Route): object => ({
  tags: [route.path.split('/')[2] ?? 'api'],
  operationId: route.operationId,
  summary: route.described?.summary ?? wordsOf(route.name),
  ...(route.described?.description ? { description: route.described.description } : {}),
  parameters: parametersOf(route),
  ...bodyOf(route),
  responses: answersOf(route),
  ...(route.isOpen ? { security: [] } : {}),
});

const MANNERS = [
  'Money is a decimal string in the currency ("31.50"); a whole amount may come as a number. Minutes are whole numbers;',
  'estimates answer with decimals. Quantities and shares are decimal strings or numbers. Instants are RFC 3339 in UTC,',
  'dates are YYYY-MM-DD. Unknown fields are refused by name. Troubles are RFC 9457 problems.',
  'A change to a versioned thing takes If-Match; one that comes too late is 412 and carries both versions.',
  'Under work-out nothing is stored. Figures of tax follow EN 16931; local law decides, and this is no tax advice.',
].join(' ');

/** The OpenAPI 3.1 document of these routes. @see OpenAPI Specification 3.1.1 */
export const documentOf = (routes: readonly Route[]): object => {
  const paths: Record<string, Record<string, object>> = {};
  for (const route of [...routes].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0)))
    paths[route.path] = { ...paths[route.path], [route.method]: operationOf(route) };
  return {
    openapi: '3.1.1',
    info: { title: 'Bastings', version: '1', description: MANNERS },
    servers: [{ url: '/' }],
    security: [{ token: [] }, { session: [] }],
    paths,
    components: {
      schemas: { Problem: PROBLEM_SHAPE },
      responses: PROBLEM_ANSWERS,
      parameters: {
        IdempotencyKey: {
          name: 'Idempotency-Key',
          in: 'header',
          description: 'The same key and body give the first answer again; another body is refused.',
          schema: { type: 'string', maxLength: 200 },
        },
      },
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer', description: 'A token from the House room.' },
        session: {
          type: 'apiKey',
          in: 'cookie',
          name: 'bastings',
          description:
            'The signed-in session; bastings-PORT where it is asked at a port, __Host- before it with TLS.',
        },
      },
    },
  };
};
