import { describe, expect, it } from 'vitest';
import type { FormModel, PageModel } from '../../src/printing/templates/page-model.js';
import { Templates } from '../../src/printing/templates/templates.js';

const templates = new Templates('templates');
const form: FormModel = {
  action: '/clients',
  method: 'post',
  once: 'k1',
  values: { name: 'Corvin' },
  errors: [],
};
const page: PageModel = {
  title: 'A new client',
  room: 'clients',
  studio: 'Quillmere Workroom',
  signedInAs: 'Odalys Fenwright',
  nonce: 'n1',
  form,
};
const draw = (change: Partial<PageModel>): string =>
  templates.render('components/form', { ...page, ...change });
const textField = (change: Partial<FormModel>): string =>
  templates.renderBare('components/text-field', {
    form: { ...form, ...change },
    name: 'name',
    label: 'Name',
  });

describe('the page', () => {
  it('bears the title, the studio, the rooms and the nonce', () => {
    const html = draw({});
    expect(html).toContain('<title>A new client · Quillmere Workroom</title>');
    expect(html).toContain('<meta name="csp-nonce" content="n1">');
    expect(html.match(/aria-current="true"/g)).toHaveLength(1);
    expect(html).toMatch(/href="\/clients"[^>]*aria-current="true"/);
    expect(html).not.toMatch(/<style|\sstyle=|<script(?![^>]*src=)/);
  });

  it('shows no rooms to a stranger', () => {
    const html = draw({ signedInAs: undefined, room: 'none' });
    expect(html).not.toContain('href="/clients"');
    expect(html).not.toContain('action="/find"');
  });

  it('says first in its title that something was refused, and links to the field', () => {
    const html = draw({ form: { ...form, errors: [{ field: 'name', text: 'Write a name.' }] } });
    expect(html).toContain('<title>Error: A new client');
    expect(html).toContain('role="alert" tabindex="-1"');
    expect(html).toContain('<a href="#field-name">Write a name.</a>');
  });

  it('asks a question without calling it an error', () => {
    const html = draw({
      form: { ...form, questions: [{ field: 'name', text: 'Sure?', confirmName: 'sure' }] },
    });
    expect(html).toContain('<title>Is that right? A new client');
    expect(html).toContain('<a href="#field-name">Sure?</a>');
  });

  it('shows an error of the whole form without a link', () => {
    const html = draw({ form: { ...form, errors: [{ field: '', text: 'The plan is empty.' }] } });
    expect(html).toContain('<li>The plan is empty.</li>');
  });
});

describe('a field', () => {
  it('keeps what was typed, as text', () => {
    expect(textField({ values: { name: '"><script>x' } })).toContain('value="&quot;&gt;&lt;script&gt;x"');
  });

  it('is described by its error, what others saved and its question', () => {
    const html = textField({
      errors: [{ field: 'name', text: 'Too long.' }],
      other: { name: 'Corvin H.' },
      questions: [{ field: 'name', text: 'Two names?', confirmName: 'two-names' }],
    });
    expect(html).toContain('aria-describedby="field-name-error field-name-other field-name-question"');
    expect(html).toContain('aria-invalid="true"');
    expect(html).toContain('name="two-names" value="yes"');
    for (const part of ['error', 'other', 'question']) expect(html).toContain(`id="field-name-${part}"`);
  });

  it('says nothing of what others saved where it is the same', () => {
    expect(textField({ other: { name: 'Corvin' } })).not.toContain('someone else');
  });

  it('never gives a passphrase back', () => {
    const html = templates.renderBare('components/text-field', {
      form,
      name: 'name',
      label: 'Word',
      type: 'password',
    });
    expect(html).not.toContain('Corvin');
  });

  it('keeps ids apart by prefix, in the field and in the summary', () => {
    const twice = { ...form, idPrefix: 'wearer-', errors: [{ field: 'name', text: 'Write a name.' }] };
    expect(textField(twice)).toContain('id="field-wearer-name" name="name"');
    expect(templates.renderBare('components/error-summary', { form: twice })).toContain('#field-wearer-name');
  });
});
