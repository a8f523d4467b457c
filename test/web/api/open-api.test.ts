import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let document: any;
beforeAll(async () => {
  studio = await openTestStudio();
  document = (await studio.api('GET', '/api/openapi.json')).json();
});
afterAll(() => studio.close());

const operations = (): [path: string, method: string, operation: any][] =>
  Object.entries<any>(document.paths).flatMap(([path, methods]) =>
    Object.entries<any>(methods).map(([method, operation]): [string, string, any] => [
      path,
      method,
      operation,
    ]),
  );

/** Every reference in the document, wherever it stands. */
const referencesIn = (value: unknown): string[] =>
  typeof value !== 'object' || value === null
    ? []
    : Object.entries(value).flatMap(([key, each]) => (key === '$ref' ? [String(each)] : referencesIn(each)));

const WHOLE = { commonPrefix: false, includeMeta: false };

/** Routes out of the tree Fastify draws: four characters deeper for each part of a path. */
const routesUnder = (start: string, tree: string): string[] => {
  const parts: string[] = [];
  return tree.split('\n').flatMap((line) => {
    const [, lines = '', part = '', methods] = /^([│├└─\s]*)(\S+)(?: \((.+)\))?/.exec(line) ?? [];
    parts.splice(lines.length / 4 - 1, parts.length, part);
    const path = parts.join('');
    const said = (methods ?? '').split(', ').filter((method) => method !== '' && method !== 'HEAD');
    return path.startsWith(start) ? said.map((method) => `${method.toLowerCase()} ${path}`) : [];
  });
};

/** Fastify draws parameters of one place together, whatever each route calls its own. */
const placesOf = (route: string): string => route.replaceAll(/[:{][\w|:]+\}?/g, ':');

const WORK_OUT = [
  'price',
  'tax',
  'stock',
  'landed-cost',
  'variances',
  'hours',
  'true-hours',
  'backtest',
  'hand-stitching',
  'earned-value',
  'promise',
];

describe('the OpenAPI document', () => {
  it('is 3.1, for whoever is signed in or has a token, and for nobody else', async () => {
    expect(document.openapi).toMatch(/^3\.1\./);
    expect((await studio.get('/api/openapi.json')).status).toBe(200);
    const stranger = await studio.get('/api/openapi.json', { cookie: '' });
    expect(stranger.status).toBe(401);
    expect(stranger.headers['content-type']).toContain('application/problem+json');
  });

  it('names every route the server has under /api, and no other', () => {
    const served = routesUnder('/api/', studio.app.getHttpAdapter().getInstance().printRoutes(WHOLE));
    const told = operations().map(([path, method]) => placesOf(`${method} ${path}`));
    expect(told.sort()).toEqual(served.map(placesOf).sort());
    expect(told).toContain('put /api/clients/:');
    for (const about of WORK_OUT) expect(told).toContain(`post /api/work-out/${about}`);
  });

  it('gives every way of asking a name of its own, and every path its parameters', () => {
    const names = operations().map(([, , { operationId }]) => operationId);
    expect(new Set(names).size).toBe(names.length);
    for (const [path, , { parameters, responses }] of operations()) {
      const inPath = parameters
        .filter((each: any) => each.in === 'path')
        .map((each: any) => `{${each.name}}`);
      expect(path.match(/\{\w+\}/g) ?? []).toEqual(inPath);
      expect(Object.keys(responses)).toContain('default');
    }
  });

  it('points only at what is there', () => {
    const references = referencesIn(document);
    expect(references.length).toBeGreaterThan(30);
    for (const reference of references) {
      const found = reference
        .replace('#/', '')
        .split('/')
        .reduce((at: any, step) => at?.[step], document);
      expect(found, reference).toBeDefined();
    }
  });

  it('shows what may be sent, unknown fields refused', () => {
    const { schema } = document.paths['/api/work-out/price'].post.requestBody.content['application/json'];
    expect(schema).toMatchObject({ type: 'object', additionalProperties: false, required: ['labour'] });
    expect(schema.properties.labour.properties.perHour.anyOf.map((each: any) => each.type)).toEqual([
      'string',
      'number',
    ]);
  });

  it('tells no secrets', () => {
    const text = JSON.stringify(document);
    expect(text).not.toContain(studio.token);
    expect(text).not.toContain('Odalys');
  });
});

describe('the examples of the document', () => {
  it.each(WORK_OUT)('%s: each is answered', async (about) => {
    const path = `/api/work-out/${about}`;
    const { examples } = document.paths[path].post.requestBody.content['application/json'];
    expect(Object.keys(examples).length).toBeGreaterThan(0);
    for (const { value } of Object.values<any>(examples)) {
      const answer = await studio.api('POST', path, value);
      expect(answer.status, answer.text).toBe(200);
      expect(answer.headers['content-type']).toContain('application/json');
    }
  });
});

describe('bodies that cannot be read', () => {
  const send = (type: string | undefined, payload: string) =>
    studio.app.inject({
      method: 'POST',
      url: '/api/work-out/hand-stitching',
      headers: { authorization: `Bearer ${studio.token}`, ...(type ? { 'content-type': type } : {}) },
      payload,
    });

  it.each([
    ['a form', 'application/x-www-form-urlencoded', 'stitches=1&stitchesPerMinute=1', 415],
    ['plain text', 'text/plain', '{"stitches":1}', 415],
    ['XML', 'application/xml', '<stitches>1</stitches>', 415],
    ['no type at all', undefined, '{"stitches":1}', 415],
    ['half a body', 'application/json', '{"stitches":1', 400],
    ['nothing', 'application/json', '', 400],
    ['a number that is none', 'application/json', '{"stitches":NaN,"stitchesPerMinute":1}', 400],
    ['a prototype', 'application/json', '{"__proto__":{"stitches":1}}', 400],
    ['too much', 'application/json', `"${'x'.repeat(3 * 1024 * 1024)}"`, 413],
    ['text instead of fields', 'application/json', '"stitches"', 422],
  ])('%s', async (_, type, payload, status) => {
    const answer = await send(type, payload);
    expect(answer.statusCode, answer.payload).toBe(status);
    expect(answer.headers['content-type']).toContain('application/problem+json');
    expect(answer.json()).toMatchObject({ type: 'about:blank', status, detail: expect.any(String) });
  });

  it('JSON by another name is JSON', async () => {
    const answer = await send('application/json; charset=utf-8', '{"stitches":1,"stitchesPerMinute":1}');
    expect([answer.statusCode, answer.json().minutes]).toEqual([200, 1]);
  });
});
