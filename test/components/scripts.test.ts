import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { frameOf } from '../../src/printing/templates/page-frame.js';
import type { FormModel, PageModel } from '../../src/printing/templates/page-model.js';
import { Templates } from '../../src/printing/templates/templates.js';
import { type Answer, Stand } from './stand.js';

const templates = new Templates('templates');
const form: FormModel = { action: '/form', method: 'post', once: 'k1', values: {}, errors: [] };
const part = (name: string, params: object): string => templates.renderBare(`components/${name}`, params);

const page = (body: string, change: Partial<PageModel> = {}): string => {
  const words = {
    title: 'A page',
    room: 'clients',
    studio: 'Quillmere Workroom',
    signedInAs: 'O',
    nonce: 'n1',
  };
  return templates.renderBare('layouts/page', frameOf({ ...words, ...change } as PageModel, body));
};

const formPage = (shown: FormModel): string =>
  page(
    part('form', { form: shown, live: '/sum', liveFrame: 'sum' }) +
      part('text-field', { form: shown, name: 'name', label: 'Name' }) +
      part('submit', { text: 'Save' }) +
      `</form><turbo-frame id="sum">${sum('0.00')}</turbo-frame>`,
    { form: shown },
  );

const sum = (figure: string): string =>
  part('figure-sum', { caption: 'Sum', lines: [{ label: 'Cost', figure, working: 'Hours times pay.' }] });

const found = (asked: string): string => `<turbo-frame id="found"><p id="asked">${asked}</p></turbo-frame>`;

const pause = (length: number) => new Promise((over) => setTimeout(over, length));

const show = async (method: string, url: URL, body: string): Promise<Answer> => {
  const typed = new URLSearchParams(body).get('name') ?? '';
  if (url.pathname === '/sum')
    return { html: `<turbo-frame id="sum">${sum(`${typed.length}.00`)}</turbo-frame>` };
  if (url.pathname === '/find-here') {
    const search = part('search-form', {
      action: '/find-here',
      label: 'Find here',
      value: '',
      frame: 'found',
    });
    return { html: page(search + found(url.searchParams.get('q') ?? '')) };
  }
  if (method === 'POST') {
    await pause(300);
    if (typed) return { seeOther: '/done' };
    const refused = { ...form, errors: [{ field: 'name', text: 'Write a name.' }] };
    return { html: formPage(refused), status: 422 };
  }
  if (url.pathname === '/form') return { html: formPage(form) };
  return { html: page('<h1>Somewhere</h1>', url.pathname === '/quiet' ? { keys: 'off' } : {}) };
};

let stand: Stand;
beforeAll(async () => {
  stand = await Stand.open(show);
});
afterAll(() => stand.close());
beforeEach(() => stand.asked.splice(0));

describe('a form', () => {
  it('goes to the summary of what was refused, and its link to the field', async () => {
    const tab = await stand.page('/form');
    await tab.click('main button');
    await tab.waitForFunction('document.activeElement.className === "summary"');
    expect(await tab.title()).toMatch(/^Error: /);
    await tab.click('.summary a');
    await tab.waitForFunction('document.activeElement.id === "field-name"');
    await tab.close();
  });

  it('is sent once, however often its button is pressed, and again after an answer', async () => {
    const tab = await stand.page('/form');
    await tab.evaluate('for (const _ of [1, 2, 3]) document.querySelector("main button").click()');
    await tab.waitForSelector('.summary');
    expect(stand.asked.filter((each) => each === 'POST /form')).toHaveLength(1);
    await tab.type('#field-name', 'Corvin');
    await Promise.all([tab.waitForFunction('location.pathname === "/done"'), tab.click('main button')]);
    await tab.close();
  });

  it('brings the sum up to date while typing, keeps the focus and what was opened', async () => {
    const tab = await stand.page('/form');
    await tab.click('#sum summary');
    await tab.type('#field-name', 'Corvin');
    await tab.waitForFunction('document.querySelector("#sum summary .figure").textContent === "6.00"');
    expect(await tab.evaluate('document.activeElement.id')).toBe('field-name');
    expect(await tab.evaluate('document.querySelector("#sum details").open')).toBe(true);
    await tab.close();
  });
});

describe('finding', () => {
  it('answers while typing and keeps the address true', async () => {
    const tab = await stand.page('/find-here');
    await tab.type('#search-q', 'tweed');
    await tab.waitForFunction('document.querySelector("#asked").textContent === "tweed"');
    expect(tab.url()).toBe(`${stand.address}/find-here?q=tweed`);
    expect(await tab.evaluate('document.activeElement.id')).toBe('search-q');
    await tab.close();
  });
});

describe('single keys', () => {
  it('go to the find form and to a room, and are letters inside a field', async () => {
    const tab = await stand.page('/somewhere');
    await tab.keyboard.press('/');
    expect(await tab.evaluate('document.activeElement.id')).toBe('find-anything');
    await tab.keyboard.type('c');
    expect(await tab.$eval('#find-anything', (field) => (field as unknown as { value: string }).value)).toBe(
      'c',
    );
    await tab.evaluate('document.activeElement.blur()');
    await tab.keyboard.press('r');
    await tab.waitForFunction('location.pathname === "/rates"');
    await tab.close();
  });

  it('do nothing where they are switched off', async () => {
    const tab = await stand.page('/quiet');
    await tab.keyboard.press('/');
    await tab.keyboard.press('r');
    await pause(200);
    expect(await tab.evaluate('location.pathname + document.activeElement.tagName')).toBe('/quietBODY');
    await tab.close();
  });
});
