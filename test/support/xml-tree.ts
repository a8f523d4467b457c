import { SaxesParser } from 'saxes';

/** An element as a strict, namespace-aware reader (saxes) sees it. Names are `prefix:local` by the prefixes given, whatever the file calls them. */
export class XmlNode {
  readonly children: XmlNode[] = [];
  text = '';

  constructor(
    readonly name: string,
    readonly attributes: Readonly<Record<string, string>>,
  ) {}

  /** Every element at the end of a path such as `cac:Party/cac:PartyName`. */
  all(path: string): XmlNode[] {
    return path
      .split('/')
      .reduce<XmlNode[]>(
        (nodes, step) => nodes.flatMap((node) => node.children.filter((child) => child.name === step)),
        [this],
      );
  }

  /** The only element at the end of a path, or none; several are an error. */
  one(path: string): XmlNode | undefined {
    const found = this.all(path);
    if (found.length > 1) throw new Error(`${path} stands ${found.length} times in ${this.name}`);
    return found[0];
  }

  /** Its words. */
  words(path: string): string | undefined {
    return this.one(path)?.text;
  }
}

/** Reads a document; whatever is not well formed, or lies in a namespace not among the prefixes, is an error. */
export const readXml = (text: string, prefixes: Readonly<Record<string, string>>): XmlNode => {
  const parser = new SaxesParser({ xmlns: true });
  const open: XmlNode[] = [];
  let root: XmlNode | undefined;
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => {
    const prefix = prefixes[tag.uri];
    if (prefix === undefined) throw new Error(`An element of an unknown namespace: ${tag.uri} ${tag.local}`);
    const attributes = Object.fromEntries(
      Object.values(tag.attributes)
        .filter((each) => each.prefix !== 'xmlns' && each.name !== 'xmlns')
        .map((each) => [each.name, each.value]),
    );
    const node = new XmlNode(`${prefix}:${tag.local}`, attributes);
    open.at(-1)?.children.push(node);
    root ??= node;
    open.push(node);
  });
  parser.on('text', (words) => {
    const node = open.at(-1);
    if (node) node.text += words;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(text).close();
  if (!root) throw new Error('There is no element.');
  return root;
};

/**
 * Where a document leaves the order and the counts of its schema.
 *
 * @param sequences by element (without prefix): its children in order, `?` at most one, `*` any, `+` at least one
 * @returns a sentence per fault
 */
export const faultsOfOrder = (node: XmlNode, sequences: Readonly<Record<string, string>>): string[] => {
  if (node.children.length === 0) return [];
  const sequence = sequences[node.name.replace(/^.*:/, '')];
  if (sequence === undefined) return [`${node.name} is in no list`];
  const steps = sequence.split(/\s+/).filter(Boolean);
  const faults: string[] = node.text.trim() === '' ? [] : [`${node.name} holds words beside elements`];
  let at = 0;
  for (const step of steps) {
    const name = step.replace(/[?*+]$/, '');
    const start = at;
    while (node.children[at]?.name === name) at += 1;
    const count = at - start;
    if (count === 0 && !/[?*]$/.test(step)) faults.push(`${node.name} lacks ${name}`);
    if (count > 1 && !/[*+]$/.test(step)) faults.push(`${node.name} has ${count} ${name}`);
  }
  const left = node.children[at];
  if (left) faults.push(`${left.name} in ${node.name} is unknown or out of order`);
  return [...faults, ...node.children.flatMap((child) => faultsOfOrder(child, sequences))];
};
