import { permittedCharacters } from './characters.js';

/** One element: its words, or the elements in it. */
export type XmlElement = {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | undefined>>;
  readonly content: string | readonly XmlElement[];
};

type Attributes = XmlElement['attributes'];

const NAMES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Line ends become LF here, as every reader would make them; in an attribute they and tabs are written as numbers. */
const lineEnds = (text: string): string => permittedCharacters(text).replace(/\r\n?/g, '\n');
const escaped = (text: string): string => lineEnds(text).replace(/[&<>"]/g, (sign) => NAMES[sign] ?? sign);
const inAttribute = (text: string): string =>
  escaped(text).replace(/[\n\t]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** An element that holds words; nothing when there are none, because an empty element means nothing in these formats. */
export const leaf = (
  name: string,
  text: { toString(): string } | undefined,
  attributes: Attributes = {},
): XmlElement | undefined => {
  const words = text?.toString() ?? '';
  return permittedCharacters(words).trim() === '' ? undefined : { name, attributes, content: words };
};

/** An element that holds elements, those that are there; nothing when none are. */
export const branch = (
  name: string,
  ...inside: readonly (XmlElement | undefined)[]
): XmlElement | undefined => {
  const content = inside.filter((each) => each !== undefined);
  return content.length === 0 ? undefined : { name, attributes: {}, content };
};

/** An element that is there even with nothing in it, because its schema asks for it. */
export const stem = (
  name: string,
  attributes: Attributes,
  ...inside: readonly (XmlElement | undefined)[]
): XmlElement => ({ name, attributes, content: inside.filter((each) => each !== undefined) });

const written = ({ name, attributes, content }: XmlElement, indent: string): string => {
  const open = Object.entries(attributes)
    .filter((each): each is [string, string] => each[1] !== undefined)
    .reduce((tag, [key, value]) => `${tag} ${key}="${inAttribute(value)}"`, `${indent}<${name}`);
  if (typeof content === 'string') return `${open}>${escaped(content)}</${name}>\n`;
  if (content.length === 0) return `${open}/>\n`;
  return `${open}>\n${content.map((each) => written(each, `${indent}  `)).join('')}${indent}</${name}>\n`;
};

/**
 * The document of one root element.
 *
 * @returns UTF-8 text; what XML cannot carry has fallen out
 * @see W3C, Extensible Markup Language (XML) 1.0, fifth edition; test/printing/exchange/xml.test.ts
 */
export const xmlOf = (root: XmlElement): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${written(root, '')}`;
