// Requests drawn with fast-check: from the schemas and examples of the OpenAPI document, from the routes and from the forms of the pages.
import fc from 'fast-check';
import { BROKEN_BODIES, HOSTILE_NAMES, HOSTILE_TEXTS, HOSTILE_VALUES } from './hostile.mjs';

/** Stands for an id that some answer showed; filled in when the request is sent. */
const anyId = fc.nat(100_000).map((n) => `@id:${n}`);
const text = fc.constantFrom(...HOSTILE_TEXTS);
const drawnText = fc.string({ unit: 'binary', maxLength: 60 });
const date = fc
  .tuple(
    fc.integer({ min: 2024, max: 2027 }),
    fc.integer({ min: 1, max: 12 }),
    fc.integer({ min: 1, max: 28 }),
  )
  .map(([year, month, day]) => `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`);
const amount = fc.oneof(
  fc.integer({ min: 0, max: 500 }).map(String),
  fc.integer({ min: 0, max: 99_999 }).map((n) => (n / 100).toFixed(2)),
);
const hostile = fc.oneof(
  { weight: 5, arbitrary: text },
  { weight: 2, arbitrary: drawnText },
  { weight: 3, arbitrary: fc.constantFrom(...HOSTILE_VALUES) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) },
);
const typed = fc.oneof(
  { weight: 4, arbitrary: text },
  { weight: 2, arbitrary: drawnText },
  { weight: 2, arbitrary: amount },
  { weight: 1, arbitrary: date },
  { weight: 1, arbitrary: anyId },
);

const plainText = (schema) =>
  fc.oneof(
    {
      weight: 3,
      arbitrary: fc.string({
        minLength: schema.minLength ?? 0,
        maxLength: Math.min(schema.maxLength ?? 20, 40),
      }),
    },
    { weight: 3, arbitrary: anyId },
    { weight: 1, arbitrary: date },
    { weight: 1, arbitrary: amount },
    { weight: 1, arbitrary: fc.constantFrom('GBP', 'EUR', 'IE', 'metre', '09:15', 'Odalys Fenwright') },
  );

const whole = ({ minimum, maximum, exclusiveMinimum }) =>
  fc.integer({
    min: Math.ceil(Math.max(minimum ?? exclusiveMinimum ?? 0, -1e9)),
    max: Math.floor(Math.max(Math.min(maximum ?? 1000, 1e9), 1)),
  });

const fieldsOf = ({ properties = {}, required = [], additionalProperties }, spoil) => {
  const named = Object.entries(properties).map(([name, one]) => [name, wanted(one, spoil)]);
  const known = fc.record(Object.fromEntries(named), {
    requiredKeys: required.filter((name) => name in properties),
  });
  if (typeof additionalProperties !== 'object') return known;
  return fc.dictionary(fc.oneof(anyId, text), wanted(additionalProperties, spoil), { maxKeys: 3 });
};

/** Values as the schema asks for them; in `spoil` of a hundred places something else. */
const wanted = (schema, spoil) => {
  const meant = meantBy(schema, spoil);
  return spoil === 0
    ? meant
    : fc.oneof({ weight: 100 - spoil, arbitrary: meant }, { weight: spoil, arbitrary: hostile });
};

const meantBy = (schema, spoil) => {
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices) return fc.oneof(...choices.map((one) => wanted(one, spoil)));
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  switch (schema.type) {
    case 'object':
      return fieldsOf(schema, spoil);
    case 'array':
      return fc.array(schema.items ? wanted(schema.items, spoil) : hostile, {
        minLength: Math.min(schema.minItems ?? 0, 3),
        maxLength: 3,
      });
    case 'string':
      if (schema.format === 'date') return date;
      return schema.pattern ? fc.stringMatching(new RegExp(schema.pattern)) : plainText(schema);
    case 'integer':
      return whole(schema);
    case 'number':
      return fc.oneof(whole(schema), fc.double({ noNaN: true, noDefaultInfinity: true }));
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      return hostile;
  }
};

/** What an example says, with one place of it spoilt: the nearest miss there is. */
const nearly = (example) =>
  fc
    .record({
      place: fc.nat(500),
      value: hostile,
      how: fc.constantFrom('put', 'put', 'leave out', 'add', 'keep', 'keep'),
    })
    .chain(({ place, value, how }) =>
      fc.constantFrom(...HOSTILE_NAMES).map((name) => {
        const copy = structuredClone(example);
        const places = placesIn(copy);
        if (how === 'keep' || places.length === 0) return copy;
        const [holder, key] = places[place % places.length];
        if (how === 'leave out') delete holder[key];
        else holder[how === 'add' && !Array.isArray(holder) ? name : key] = value;
        return copy;
      }),
    );

const placesIn = (value) =>
  typeof value !== 'object' || value === null
    ? []
    : Object.keys(value).flatMap((key) => [[value, key], ...placesIn(value[key])]);

const bodyOf = (operation) => {
  const media = operation.requestBody?.content['application/json'];
  if (!media) return fc.option(fc.record({ json: hostile }), { freq: 2, nil: {} });
  const examples = Object.values(media.examples ?? {}).map(({ value }) => nearly(value));
  const json = fc.oneof(
    ...(examples.length > 0 ? [{ weight: 6, arbitrary: fc.oneof(...examples) }] : []),
    { weight: 2, arbitrary: wanted(media.schema, 0) },
    { weight: 4, arbitrary: wanted(media.schema, 8) },
    { weight: 1, arbitrary: hostile },
  );
  return fc.oneof(
    { weight: 19, arbitrary: fc.record({ json }) },
    { weight: 1, arbitrary: fc.record({ raw: fc.constantFrom(...BROKEN_BODIES) }) },
  );
};

const inAddress = fc.oneof(
  { weight: 9, arbitrary: anyId },
  { weight: 2, arbitrary: text },
  { weight: 1, arbitrary: drawnText },
);
const asked = (names) =>
  fc.dictionary(fc.constantFrom(...names, 'strange', '__proto__'), fc.oneof(typed, inAddress), {
    maxKeys: 3,
  });
const headers = fc.record(
  {
    'if-match': fc.constantFrom('"1"', '"2"', '*', '"x"', 'W/"1"', '1', ''),
    'idempotency-key': fc.oneof(fc.uuid(), fc.constantFrom('a', 'x'.repeat(300), '{{x}}')),
  },
  { requiredKeys: [] },
);
const who = fc.constantFrom(
  'token',
  'token',
  'token',
  'owner',
  'owner',
  'maker',
  'trusted',
  'bookkeeper',
  'nobody',
);

/** An address with something in each of its places. */
const filled = (path) => {
  const names = [...path.matchAll(/\{\w+\}|:\w+|\*/g)].map(([name]) => name);
  return fc
    .array(inAddress, { minLength: names.length, maxLength: names.length })
    .map((parts) => ({ path, names, parts }));
};

const toInterface = (operations) =>
  fc.constantFrom(...operations).chain(({ path, method, operation }) =>
    fc.record({
      kind: fc.constant('interface'),
      method: fc.constant(method.toUpperCase()),
      at: filled(path),
      query: asked(operation.parameters.filter((one) => one.in === 'query').map(({ name }) => name)),
      headers,
      body: bodyOf(operation),
      who,
    }),
  );

const toPage = (pages) =>
  fc.constantFrom(...pages).chain((path) =>
    fc.record({
      kind: fc.constant('page'),
      method: fc.constant('GET'),
      at: filled(path),
      query: asked(['q', 'back', 'done', 'kept', 'from', 'to', 'page', 'after', 'on', 'client']),
      headers: fc.constant({}),
      body: fc.constant({}),
      who,
    }),
  );

/** A form that some page showed, sent with a few of its fields spoilt. */
const asForm = fc.record({
  kind: fc.constant('form'),
  which: fc.nat(100_000),
  spoilt: fc.array(fc.record({ field: fc.nat(200), value: typed }), { maxLength: 3 }),
  strange: fc.option(fc.tuple(fc.constantFrom(...HOSTILE_NAMES), typed), { freq: 10, nil: undefined }),
  who: fc.constantFrom('owner', 'owner', 'owner', 'owner', 'maker', 'trusted', 'bookkeeper', 'nobody'),
});

/** Everything that is going to be asked, always the same for the same seed. */
export const drawRequests = ({ document, pages, count, seed }) => {
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );
  const one = fc.oneof(
    { weight: 12, arbitrary: toInterface(operations) },
    { weight: 3, arbitrary: toPage(pages) },
    { weight: 5, arbitrary: asForm },
  );
  return fc.sample(one, { seed, numRuns: count });
};
