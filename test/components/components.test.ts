import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Example, galleryOf } from '../../src/printing/templates/gallery.js';
import { Templates } from '../../src/printing/templates/templates.js';

const templates = new Templates('templates');
const exhibits = galleryOf('templates');
const used = exhibits.flatMap(({ template, name, examples }) =>
  examples.map((example): [string, string, Example] => [name, template, example]),
);

const attack = `"'><script>alert(1)</script>{{7}}`;

/** Turns every word people could have typed into markup; leaves what chooses a form or a class. */
const attacked = (value: unknown, key = ''): unknown => {
  if (Array.isArray(value)) return value.map((each) => attacked(each, key));
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, attacked(inner, name)]));
  }
  return typeof value === 'string' && !['kind', 'type', 'method'].includes(key) ? attack : value;
};

describe.each(used)('%s', (_, template, example) => {
  it(`draws: ${example.title}`, () => {
    const html = templates.renderBare(template, example.params);
    expect(html).not.toMatch(/undefined|\[object|\{\{(?!co)/);
    expect(html).not.toMatch(/\sstyle=|\son[a-z]+=|<script/);
    expect(html.match(/id="([^"]+)"/g) ?? []).toHaveLength(new Set(html.match(/id="([^"]+)"/g)).size);
  });

  it(`shows markup as text: ${example.title}`, () => {
    const html = templates.renderBare(template, attacked(example.params) as object);
    expect(html).not.toContain('<script');
    expect(html).not.toContain(`"'>`);
  });
});

describe('every component', () => {
  it('stands in the gallery, with an example at least; none is left out', () => {
    expect(exhibits.map(({ name }) => name)).toEqual(readdirSync('templates/components').sort());
    for (const { name, examples } of exhibits) expect([name, examples.length > 0]).toEqual([name, true]);
  });

  it.each(exhibits)('$name says what its parameters are', ({ name, about }) => {
    expect(about.startsWith(`${name}: `)).toBe(true);
  });

  it.each(exhibits)('$name names in its header each parameter its examples use', ({ about, examples }) => {
    for (const parameter of examples.flatMap(({ params }) => Object.keys(params))) {
      expect(about).toMatch(new RegExp(`\\b${parameter}\\b`));
    }
  });

  // A pager with nothing before or after draws nothing, by design.
  it.each(exhibits.filter(({ name }) => name !== 'pager'))(
    '$name cannot be drawn with nothing',
    ({ template }) => {
      expect(() => templates.renderBare(template, {})).toThrow('is missing from its model');
    },
  );

  it('stands in the gallery, which is a whole page', () => {
    const html = templates.render('house/gallery', {
      title: 'Gallery',
      room: 'house',
      studio: 'Quillmere Workroom',
      signedInAs: 'Odalys Fenwright',
      nonce: 'n',
      exhibits,
    });
    for (const { name } of exhibits) expect(html).toContain(`id="exhibit-${name}"`);
  });

  it('refuses a row with more cells than the table has columns', () => {
    const rows = [{ cells: [{ text: 'a' }, { text: 'b' }] }];
    expect(() =>
      templates.renderBare('components/table', { caption: 'c', columns: [{ text: 'one' }], rows }),
    ).toThrow('a-column-for-every-cell');
  });
});
