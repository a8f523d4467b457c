import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SafePicture } from '../../src/printing/templates/safe-picture.js';
import { TemplateFault } from '../../src/printing/templates/template-fault.js';
import { Templates } from '../../src/printing/templates/templates.js';

const templatesOf = (files: Record<string, string>, keep = true): Templates => {
  const folder = mkdtempSync(join(tmpdir(), 'templates-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return new Templates(folder, keep);
};

const drawn = (text: string, model: object, parts: Record<string, string> = {}): string =>
  templatesOf({ 'bench/day.hbs': text, ...parts }).renderBare('bench/day', model);

describe('a template', () => {
  it('places words, escaped', () => {
    expect(drawn('<p>{{who}}</p>', { who: '<b>"Fen" & {{co}}</b>' })).toBe(
      '<p>&lt;b&gt;&quot;Fen&quot; &amp; {{co}}&lt;/b&gt;</p>',
    );
  });

  it.each([
    ['a word', '{{clint}}'],
    ['a list', '{{#each clint}}x{{/each}}'],
    ['an argument of a word', '{{#if (eq clint "x")}}y{{/if}}'],
    ['a parameter of a component', '{{> components/name text=clint}}'],
    ['a parameter inside a list', '{{#each (list (hash text=clint))}}{{text}}{{/each}}'],
  ])('says what is missing: %s', (_, text) => {
    const draw = () => drawn(text, { client: 'Corvin' }, { 'components/name/name.hbs': '{{text}}' });
    expect(draw).toThrow(TemplateFault);
    expect(draw).toThrow(
      'The template bench/day could not be drawn: "clint" is missing from its model (line 1).',
    );
  });

  it('lets a template ask whether something is there', () => {
    const text =
      '{{#if (has this "note")}}[{{note}}]{{/if}}{{#if note}}!{{/if}}{{optional this "note" "none"}}';
    expect(drawn(text, {})).toBe('none');
    expect(drawn(text, { note: '' })).toBe('none');
    expect(drawn(text, { note: 'chalk' })).toBe('[chalk]!chalk');
  });

  it('refuses block parameters, which nothing would check', () => {
    expect(() => drawn('{{#each rows as |row|}}{{row.x}}{{/each}}', { rows: [] })).toThrow(
      'use this and ../',
    );
  });

  it('names the template and the part that are not there', () => {
    expect(() => templatesOf({}).renderBare('bench/day', {})).toThrow('The template bench/day');
    expect(() => drawn('{{> components/nobody}}', {})).toThrow('components/nobody');
    expect(() => drawn('{{shout "x"}}', {})).toThrow('shout');
    expect(() => drawn('{{#if}', {})).toThrow(TemplateFault);
  });

  it('shows a component nothing but its parameters', () => {
    expect(() =>
      drawn('{{> components/name}}', { text: 'page' }, { 'components/name/name.hbs': '{{text}}' }),
    ).toThrow('The template components/name could not be drawn: "text"');
  });

  it('keeps the spaces of typed text where a component is indented', () => {
    const parts = { 'components/name/name.hbs': '<pre>{{text}}</pre>' };
    expect(drawn('  {{> components/name text=text}}', { text: 'a\nb' }, parts)).toContain('<pre>a\nb</pre>');
  });

  it('reads nothing of a model but its own words', () => {
    expect(() => drawn('{{constructor}}', {})).not.toThrow();
    expect(drawn('{{constructor}}', {})).toBe('');
  });

  it('reads a file again only when told to', () => {
    for (const keep of [true, false]) {
      const folder = mkdtempSync(join(tmpdir(), 'templates-'));
      writeFileSync(join(folder, 'a.hbs'), 'first');
      const templates = new Templates(folder, keep);
      templates.renderBare('a', {});
      writeFileSync(join(folder, 'a.hbs'), 'second');
      expect(templates.renderBare('a', {})).toBe(keep ? 'first' : 'second');
    }
  });
});

describe('a picture', () => {
  it('is the only markup placed as it is, and only when our own code drew it', () => {
    const svg = '<svg role="img"><path d="M0 0"/></svg>';
    expect(drawn('{{picture plan}}', { plan: SafePicture.fromOwnDrawing(svg) })).toBe(svg);
    expect(() => drawn('{{picture plan}}', { plan: svg })).toThrow('SafePicture');
  });

  it.each([
    '<p>no picture</p>',
    '<svg><script>1</script></svg>',
    '<svg onload="x()"></svg>',
    '<svg><image href="https://elsewhere.example/x.png"/></svg>',
    '<svg><g style="fill:red"/></svg>',
  ])('refuses %s', (svg) => {
    expect(() => SafePicture.fromOwnDrawing(svg)).toThrow('picture');
  });
});
