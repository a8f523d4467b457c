// What answers have shown so far: ids to ask for, and forms to send.

const MOST = 400;
const UUID = /[\da-f]{8}-[\da-f]{4}-[\da-f]{4}-[\da-f]{4}-[\da-f]{12}/g;
const entities = { amp: '&', lt: '<', gt: '>', quot: '"', '#x27': "'", '#x3D': '=', '#x60': '`' };
const plain = (text) => text.replaceAll(/&(#?\w+);/g, (whole, name) => entities[name] ?? whole);
const attribute = (tag, name) => plain(new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? '');

const valueIn = (tag, rest) => {
  if (tag.startsWith('<textarea')) return plain(/^([\s\S]*?)<\/textarea>/.exec(rest)?.[1] ?? '');
  if (!tag.startsWith('<select')) return attribute(tag, 'value');
  const options = /^([\s\S]*?)<\/select>/.exec(rest)?.[1] ?? '';
  const chosen = /<option[^>]*\sselected[^>]*>/.exec(options) ?? /<option[^>]*>/.exec(options);
  return chosen ? attribute(chosen[0], 'value') : '';
};

/** The fields of a form as a browser without script would send them. */
const fieldsIn = (form) =>
  [...form.matchAll(/<(?:input|textarea|select)\b[^>]*>/g)].flatMap(({ 0: tag, index }) => {
    const name = attribute(tag, 'name');
    const kind = attribute(tag, 'type');
    const waits = (kind === 'radio' || kind === 'checkbox') && !/\schecked/.test(tag);
    return name === '' || waits ? [] : [{ name, kind, value: valueIn(tag, form.slice(index + tag.length)) }];
  });

export const openPool = () => {
  const ids = [];
  const byNoun = new Map();
  const forms = new Map();
  const links = new Set();
  const keep = (id) => {
    if (ids.length < MOST) ids.push(id);
    else ids[(id.charCodeAt(0) * 31 + id.charCodeAt(id.length - 1)) % MOST] = id;
  };
  const keepFor = (noun, id) => {
    const known = byNoun.get(noun) ?? byNoun.set(noun, []).get(noun);
    if (!known.includes(id)) known.push(id);
    if (known.length > 40) known.shift();
  };
  return {
    forms,
    links,
    /** An id of such things (`clients`) where one was seen, and one time in four any other. */
    of(noun, n) {
      const known = byNoun.get(noun) ?? [];
      return known.length === 0 || n % 4 === 0 ? this.id(n) : known[n % known.length];
    },
    id: (n) => ids[n % Math.max(1, ids.length)] ?? 'none',
    form: (n) => [...forms.values()][n % Math.max(1, forms.size)],
    /** Remembers what an answer shows. */
    look(type, text, url) {
      const [, listed = ''] = /^\/(?:api\/)?([\w-]+)(?:\?|$)/.exec(url) ?? [];
      if (listed !== '' && type.includes('json'))
        for (const [, id] of text.matchAll(/\{"id":"([\w-]{3,40})"/g)) keepFor(listed, id);
      for (const [, noun, id] of text.matchAll(/\/([a-z-]+)\/([\da-f]{8}-[\da-f-]{27})/g)) keepFor(noun, id);
      for (const [, noun, id] of text.matchAll(/"([a-z]+)Id":"([\w-]{3,40})"/g)) keepFor(`${noun}s`, id);
      for (const [id] of text.matchAll(UUID)) if (!ids.includes(id)) keep(id);
      if (type.includes('json')) {
        for (const [, id] of text.matchAll(/"(?:id|key|typeId|section)":"([\w-]{2,40})"/g))
          if (!ids.includes(id)) keep(id);
        return;
      }
      if (!type.includes('html')) return;
      for (const [, href] of text.matchAll(/<a [^>]*?href="(\/[^"]*)"/g)) links.add(plain(href));
      for (const [form] of text.matchAll(/<form [^>]*method="post"[\s\S]*?<\/form>/g)) {
        const tag = form.slice(0, form.indexOf('>') + 1);
        const action = attribute(tag, 'action');
        if (action.startsWith('/sign-out')) continue;
        forms.set(action.replaceAll(UUID, ':'), {
          action,
          many: tag.includes('multipart'),
          fields: fieldsIn(form),
        });
      }
    },
  };
};
