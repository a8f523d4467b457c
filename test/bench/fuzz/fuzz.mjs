// Asks the studio thousands of things that nobody means, and tells of every answer that no program should give.
import { openPool } from './pool.mjs';
import { drawRequests } from './requests.mjs';
import { openWire } from './send.mjs';

const TOO_LONG = 5000;
/** What only the inside of a program says. None of it stands in what is sent. */
const INSIDE =
  /\n\s+at \S+ |node_modules|SQLITE|QueryFailed|TypeError|RangeError|(?<!<title>)Error: |\/dist\/|\/src\/\w+\//;
const READABLE = /json|html|text|xml|calendar|csv/;

const inAddress = (text) => encodeURIComponent(text.toWellFormed());

const AN_ID = /^[\da-f]{8}-[\da-f-]{27}$/;

/** With ids that answers have shown, by the names of the fields they stand in: `clientId`, `client: {id}`. */
const filled = (value, pool, name = '', holder = '') => {
  if (typeof value === 'string') {
    const noun = `${name === 'id' ? holder : name.replace(/Id$/, '')}s`;
    if (value.startsWith('@id:')) return pool.of(noun, Number(value.slice(4)));
    return AN_ID.test(value) ? pool.of(noun, 1) : value;
  }
  if (Array.isArray(value)) return value.map((one) => filled(one, pool, name, holder));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([own, one]) => [own, filled(one, pool, own, name)]));
};

const urlOf = ({ path, names, parts }, query, pool) => {
  const place = names.reduce((so, name, n) => {
    const noun = /([\w-]+)\/$/.exec(so.slice(0, so.indexOf(name)))?.[1] ?? '';
    const part = parts[n].startsWith('@id:') ? pool.of(noun, Number(parts[n].slice(4))) : parts[n];
    return so.replace(name, () => inAddress(part) || '%20');
  }, path);
  const asked = Object.entries(query).map(
    ([name, one]) => `${inAddress(name)}=${inAddress(filled(one, pool, name))}`,
  );
  return asked.length > 0 ? `${place}?${asked.join('&')}` : place;
};

/** Fields and files of one form, by RFC 7578. */
const inParts = (fields, boundary) =>
  `${fields
    .map(({ name, kind, value }) => {
      const file = kind === 'file' ? '; filename="../../x.csv"\r\ncontent-type: text/csv' : '';
      const field = name.replaceAll(/["\r\n]/g, '_');
      return `--${boundary}\r\ncontent-disposition: form-data; name="${field}"${file}\r\n\r\n${value}\r\n`;
    })
    .join('')}--${boundary}--\r\n`;

const formOf = (drawn, pool) => {
  const form = pool.form(drawn.which);
  if (!form) return undefined;
  const fields = form.fields.map((field) => ({ ...field }));
  for (const { field, value } of drawn.spoilt)
    if (fields.length > 0) fields[field % fields.length].value = filled(value, pool);
  if (drawn.strange) fields.push({ name: drawn.strange[0], value: filled(drawn.strange[1], pool) });
  const pairs = fields.map(({ name, value }) => [name, value.toWellFormed()]);
  return {
    method: 'POST',
    url: form.action,
    headers: {
      'content-type': form.many ? 'multipart/form-data; boundary=seam' : 'application/x-www-form-urlencoded',
      'sec-fetch-site': 'same-origin',
    },
    body: form.many ? inParts(fields, 'seam') : new URLSearchParams(pairs).toString(),
  };
};

const requestOf = (drawn, pool) => {
  if (drawn.kind === 'form') return formOf(drawn, pool);
  const { json, raw } = drawn.body;
  const body = raw ?? (json === undefined ? undefined : JSON.stringify(filled(json, pool)));
  const said = Object.entries(drawn.headers).filter(
    ([, value]) => value !== undefined && /^[ -~]*$/.test(value),
  );
  return {
    method: drawn.method,
    url: urlOf(drawn.at, drawn.query, pool),
    headers: {
      ...Object.fromEntries(said),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      'sec-fetch-site': 'same-origin',
    },
    ...(body === undefined ? {} : { body }),
  };
};

const faultOf = ({ status, ms, text, headers }) => {
  if (status === 0) return `no answer (${text.slice(0, 80)})`;
  if (status >= 500) return `status ${status}`;
  if (ms > TOO_LONG) return `took ${ms.toFixed(0)} ms`;
  if (!READABLE.test(String(headers['content-type'] ?? ''))) return undefined;
  const inside = INSIDE.exec(text);
  return inside
    ? `tells of its inside: ${text.slice(Math.max(0, inside.index - 60), inside.index + 60)}`
    : undefined;
};

/**
 * Fuzzes a studio that listens.
 *
 * @returns how much was asked, how often each status was answered, the slowest, and every fault
 */
export const fuzz = async ({ address, document, pages, keys, renew, count, seed }) => {
  const pool = openPool();
  const wire = openWire(address);
  const [statuses, faults, slowest] = [{}, [], { ms: 0, asked: '' }];
  const polluted = () => ({}).polluted !== undefined;
  const ask = async (request, who) => {
    const key = keys[who] ?? {};
    const answer = await wire.send({ ...request, headers: { ...request.headers, ...key } });
    const asked = `${request.method} ${request.url.slice(0, 300)} as ${who}`;
    statuses[answer.status] = (statuses[answer.status] ?? 0) + 1;
    if (answer.ms > slowest.ms) Object.assign(slowest, { ms: answer.ms, asked });
    const fault = polluted() ? 'a prototype is polluted' : faultOf(answer);
    if (fault)
      faults.push({
        asked,
        fault,
        body: String(request.body ?? '').slice(0, 600),
        answer: answer.text.slice(0, 300),
      });
    if (answer.status < 300)
      pool.look(String(answer.headers['content-type'] ?? ''), answer.text, request.url);
    const out = answer.status === 401 || String(answer.headers.location ?? '').startsWith('/sign-in');
    if (out && who !== 'nobody') keys[who] = await renew(who);
    return answer;
  };
  const walk = async (most) => {
    const seen = new Set();
    for (const url of pool.links) {
      const place = url.replaceAll(/[\da-f]{8}-[\da-f-]{27}/g, ':').split('?')[0];
      if (seen.size >= most) break;
      if (seen.has(place) || place.endsWith('.pdf')) continue;
      seen.add(place);
      await ask({ method: 'GET', url: encodeURI(decodeURI(url)) }, 'owner');
    }
  };
  for (const path of Object.keys(document.paths))
    if (document.paths[path].get && !path.includes('{')) await ask({ method: 'GET', url: path }, 'token');
  for (const url of [
    '/',
    '/clients',
    '/commissions',
    '/papers',
    '/house',
    '/rates',
    '/cloth-room',
    '/lessons',
  ])
    await ask({ method: 'GET', url }, 'owner');
  await walk(count / 20);
  for (const drawn of drawRequests({ document, pages, count, seed })) {
    const request = requestOf(drawn, pool);
    if (request) await ask(request, drawn.who);
  }
  // What was kept of all that must not break the pages either.
  await walk(count / 20);
  wire.hangUp();
  return {
    asked: Object.values(statuses).reduce((so, n) => so + n, 0),
    forms: pool.forms.size,
    statuses,
    slowest,
    faults,
  };
};
