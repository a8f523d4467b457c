import { SaxesParser, type SaxesTagNS } from 'saxes';
import { refusedMark } from './refused-mark.js';
import { DRAWN, FORBIDDEN, SAID } from './svg-words.js';

const SVG = 'http://www.w3.org/2000/svg';
const XLINK = 'http://www.w3.org/1999/xlink';
const NONE = '';
const MOST_ELEMENTS = 20_000;
const DEEPEST = 60;
/** What `use` may unfold to: a few lines of nested uses would otherwise draw for hours. */
const MOST_DRAWN = 100_000;

type Element = { name: string; said: Map<string, string>; inside: (Element | string)[] };

const FETCHES =
  'This drawing points to something outside itself, and a paper fetches nothing. Save it with its pictures and faces inside.';

const carried = /^data:image\/(png|jpeg);base64,[A-Za-z0-9+/\s]+={0,2}\s*$/;

/** What stands in a style: no address but to itself, nothing brought in, no sign written in disguise. */
const checkedStyle = (style: string): string => {
  if (
    /@import|@font-face|@namespace/i.test(style) ||
    /\\/.test(style) ||
    /image-set|expression\s*\(/i.test(style)
  )
    throw refusedMark(FETCHES);
  return checkedAddresses(style);
};

const checkedAddresses = (value: string): string => {
  for (const [, inside = ''] of value.matchAll(/url\s*\(([^)]*)\)?/gi)) {
    if (!inside.trim().replace(/^["']/, '').startsWith('#')) throw refusedMark(FETCHES);
  }
  return value;
};

const saidOf = (tag: SaxesTagNS): Map<string, string> => {
  const said = new Map<string, string>();
  for (const { local, uri, prefix, value } of Object.values(tag.attributes)) {
    if (/^on/i.test(local))
      throw refusedMark('This drawing holds a program, and a paper runs none. Save it without scripts.');
    if (prefix === 'xmlns' || local === 'xmlns') continue;
    if (uri !== NONE && !(uri === XLINK && local === 'href')) continue;
    if (local === 'href') {
      const isCarried = tag.local === 'image' && carried.test(value);
      if (!isCarried && !value.trim().startsWith('#')) {
        if (tag.local === 'a') continue;
        throw refusedMark(FETCHES);
      }
      said.set('href', value.trim());
    } else if (local === 'style') said.set('style', checkedStyle(value));
    else if (SAID.has(local)) said.set(local, checkedAddresses(value));
  }
  return said;
};

/** Reads the drawing into what may stay. */
const drawingOf = (text: string): Element => {
  const parser = new SaxesParser({ xmlns: true });
  const root: Element = { name: '', said: new Map(), inside: [] };
  const open: (Element | undefined)[] = [root];
  let count = 0;
  parser.on('error', () => {
    throw refusedMark('This drawing cannot be read: it is no well-formed SVG. Save it once more.');
  });
  parser.on('doctype', (doctype) => {
    if (/<!ENTITY/i.test(doctype))
      throw refusedMark('This drawing defines words of its own in its head. Save it as plain SVG.');
  });
  parser.on('processinginstruction', ({ target }) => {
    if (/stylesheet/i.test(target)) throw refusedMark(FETCHES);
  });
  parser.on('opentag', (tag) => {
    count += 1;
    if (count > MOST_ELEMENTS || open.length > DEEPEST)
      throw refusedMark('This drawing has too many parts for a mark. Make it simpler.');
    if (FORBIDDEN.has(tag.local))
      throw refusedMark(`This drawing holds <${tag.local}>, which a paper cannot print. Save it without.`);
    const within = open[open.length - 1];
    // A link in a drawing is its content only: nothing is pressed on paper.
    const name = tag.local === 'a' ? 'g' : tag.local;
    // Without a namespace it is an SVG cut out of a page; with another one it is some program's own remark.
    const stays = within && (tag.uri === SVG || tag.uri === NONE) && DRAWN.has(name);
    const element: Element | undefined = stays ? { name, said: saidOf(tag), inside: [] } : undefined;
    if (element) within?.inside.push(element);
    open.push(element);
  });
  const say = (words: string): void => {
    const within = open[open.length - 1];
    if (within && within !== root) within.inside.push(within.name === 'style' ? checkedStyle(words) : words);
  };
  parser.on('text', say);
  parser.on('cdata', say);
  parser.on('closetag', () => {
    const closed = open.pop();
    // Said in pieces, a style could hide what it brings in.
    if (closed?.name === 'style') checkedStyle(closed.inside.join(''));
  });
  parser.write(text).close();
  const [drawing] = root.inside;
  if (typeof drawing !== 'object' || drawing.name !== 'svg')
    throw refusedMark('This is no SVG drawing: it does not begin with <svg>.');
  return drawing;
};

/** How many elements are drawn once every `use` is unfolded. @throws Invalid when it is too many, or never ends */
const mustUnfold = (drawing: Element): void => {
  const byId = new Map<string, Element>();
  const weights = new Map<Element, number>();
  const under = new Set<Element>();
  const note = (element: Element): void => {
    const id = element.said.get('id');
    if (id && !byId.has(id)) byId.set(id, element);
    for (const each of element.inside) if (typeof each === 'object') note(each);
  };
  const tooMany = (): never => {
    throw refusedMark('This drawing repeats itself too often for a mark. Make it simpler.');
  };
  const weigh = (element: Element): number => {
    const known = weights.get(element);
    if (known !== undefined) return known;
    if (under.has(element)) return tooMany();
    under.add(element);
    let weight = 1;
    for (const each of element.inside) if (typeof each === 'object') weight += weigh(each);
    for (const value of element.said.values()) {
      const used = value.startsWith('#')
        ? [value.slice(1)]
        : [...value.matchAll(/url\s*\(\s*["']?#([^"')]+)/g)].map(([, id = '']) => id.trim());
      for (const id of used) {
        const target = byId.get(id);
        // A paint colour such as #fff looks like an address too, and names nothing.
        if (target) weight += weigh(target);
      }
    }
    if (weight > MOST_DRAWN) tooMany();
    under.delete(element);
    weights.set(element, weight);
    return weight;
  };
  note(drawing);
  weigh(drawing);
};

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign] ?? '');

const written = ({ name, said, inside }: Element): string => {
  const attributes = [...said].map(([key, value]) => ` ${key}="${escaped(value)}"`).join('');
  const content = inside.map((each) => (typeof each === 'string' ? escaped(each) : written(each))).join('');
  return content === '' ? `<${name}${attributes}/>` : `<${name}${attributes}>${content}</${name}>`;
};

const LENGTH = /^\s*(\d*\.?\d+)\s*(px|pt|mm|cm|in|pc)?\s*$/;

/** A drawing says how large it is, by a view or by width and height; else a browser makes up a size. */
const sized = (drawing: Element): Element => {
  const view = drawing.said
    .get('viewBox')
    ?.trim()
    .split(/[\s,]+/)
    .map(Number);
  const [width, height] = ['width', 'height'].map((side) => LENGTH.exec(drawing.said.get(side) ?? '')?.[1]);
  const isView = view?.length === 4 && view.every(Number.isFinite) && view[2]! > 0 && view[3]! > 0;
  if (!isView && !(Number(width) > 0 && Number(height) > 0))
    throw refusedMark(
      'This drawing does not say how large it is. Give it a width and a height, and save it once more.',
    );
  const said = new Map(drawing.said);
  said.delete('viewBox');
  const box = isView ? view.join(' ') : `0 0 ${width} ${height}`;
  return { ...drawing, said: new Map([['xmlns', SVG], ['viewBox', box], ...said]) };
};

/**
 * A drawing as it may be printed: parsed, held to a list of still shapes, and written anew, so that nothing the list does not
 * name can be in it. What runs or fetches is refused in words rather than dropped, since the drawing would not be the same.
 *
 * @throws Invalid naming the field `mark`
 * @see SVG 2 (W3C) chapters 5 to 13 for the names; test/storage/pictures/clean-svg.test.ts
 */
export const cleanSvg = (text: string): string => {
  const drawing = drawingOf(text.replace(/^\ufeff/, '').trimStart());
  mustUnfold(drawing);
  return written(sized(drawing));
};
