import type { KeyInput } from 'puppeteer';
import type { Hand } from './hand.js';
import type { Maker } from './maker.js';

const MOST_TABS = 250;
const STANDING = `(document.title + location.href + (document.querySelector('main')?.textContent ?? ''))`;

/** A person with keys alone, script on: everything is come to by Tab, and nothing is done with a pointer. */
export class Keyboard implements Hand {
  /** Keys pressed so far. */
  keys = 0;

  constructor(private readonly maker: Maker) {}

  get path(): string {
    return this.maker.path;
  }

  text(): Promise<string> {
    return this.maker.text();
  }

  open(path: string): Promise<number> {
    return this.maker.open(path);
  }

  async key(name: KeyInput): Promise<void> {
    this.keys += 1;
    await this.maker.page.keyboard.press(name);
  }

  async type(text: string): Promise<void> {
    this.keys += text.length;
    await this.maker.page.keyboard.type(text);
  }

  async write(field: string, text: string): Promise<void> {
    await this.tabToField(field);
    await this.maker.page.keyboard.down('Control');
    await this.key('a');
    await this.maker.page.keyboard.up('Control');
    await this.type(text);
  }

  async choose(field: string, value: string): Promise<void> {
    await this.tabToField(field);
    await this.arrowTo(value, 'one.value');
  }

  async pick(field: string, value: string): Promise<void> {
    await this.tabToField(field);
    if (await this.holds(`one.value === ${JSON.stringify(value)} && !one.checked`)) await this.key('Space');
    await this.arrowTo(value, 'one.checked && one.value');
  }

  async tickBeside(words: string): Promise<void> {
    await this.tabTo(
      `one.type === 'checkbox' && words(one.closest('label')).startsWith(${JSON.stringify(words)})`,
      words,
    );
    await this.key('Space');
  }

  async tickAll(): Promise<void> {
    const left = `document.querySelectorAll('main input[type=checkbox]:not(:checked)').length`;
    while (Number(await this.maker.page.evaluate(left)) > 0) {
      await this.tabTo(`one.type === 'checkbox' && !one.checked`, 'a box that is not ticked');
      await this.key('Space');
    }
  }

  async press(words: string): Promise<void> {
    const said = JSON.stringify(words);
    await this.tabTo(
      `one.tagName === 'BUTTON' && (words(one) === ${said} || words(one).startsWith(${JSON.stringify(`${words} `)}) && ![...document.querySelectorAll('main button')].some((other) => words(other) === ${said}))`,
      words,
    );
    await this.enter();
  }

  async follow(words: string): Promise<void> {
    await this.tabTo(`one.tagName === 'A' && words(one) === ${JSON.stringify(words)}`, words);
    await this.enter();
  }

  /** Goes on by Tab until what the keys stand on is meant; past the letterhead by its own link. */
  private async tabTo(meant: string, called: string): Promise<void> {
    if (await this.holds(meant)) return;
    for (let tabs = 0; tabs < MOST_TABS; tabs += 1) {
      await this.key('Tab');
      if (await this.holds(meant)) return;
    }
    const here = await this.maker.page.evaluate('document.activeElement?.outerHTML.slice(0, 200)');
    throw new Error(
      `${MOST_TABS} tabs on ${this.path} never came to “${called}”; the last was ${String(here)}.\n${(await this.text()).slice(0, 1500)}`,
    );
  }

  private tabToField(field: string): Promise<void> {
    return this.tabTo(`one.name === ${JSON.stringify(field)}`, field);
  }

  /** Arrows go through what a list offers, and round again. */
  private async arrowTo(value: string, of: string): Promise<void> {
    const there = `(${of}) === ${JSON.stringify(value)}`;
    for (let arrows = 0; arrows < MOST_TABS; arrows += 1) {
      if (await this.holds(there)) return;
      await this.key('ArrowDown');
    }
    throw new Error(`No arrow came to “${value}” on ${this.path}.`);
  }

  private async enter(): Promise<void> {
    const before = JSON.stringify(await this.maker.page.evaluate(STANDING));
    await this.key('Enter');
    await this.maker.page.waitForFunction(
      `document.readyState === 'complete' && !document.documentElement.hasAttribute('aria-busy') && ${STANDING} !== ${before}`,
      { timeout: 60_000 },
    );
  }

  private async holds(meant: string): Promise<boolean> {
    return Boolean(
      await this.maker.page.evaluate(`(() => {
        const words = (one) => (one.textContent ?? '').trim().replace(/\\s+/g, ' ');
        const one = document.activeElement;
        return Boolean(one && (${meant}));
      })()`),
    );
  }
}
