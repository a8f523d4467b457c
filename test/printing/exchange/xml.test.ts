import { describe, expect, it } from 'vitest';
import { branch, leaf, stem, xmlOf } from '../../../src/printing/exchange/xml.js';
import { faultsOfOrder, readXml } from '../../support/xml-tree.js';

const read = (text: string) => readXml(text, { '': 'n' });

describe('XML as it is written', () => {
  it('is read back sign for sign by a strict reader', () => {
    const words = `5 < 6 & "7" > '2' ]]> <!-- é 漢 🧵\n\tend`;
    const root = read(xmlOf(stem('a', { b: `${words}\t` }, leaf('c', words))));
    expect(root.words('n:c')).toBe(words);
    expect(root.attributes.b).toBe(`${words}\t`);
  });

  it('drops what XML cannot carry and makes one line end of every kind', () => {
    expect(read(xmlOf(stem('a', {}, leaf('c', 'x\u0000\u000b\ud800\uffffy\r\nz\rw')))).words('n:c')).toBe(
      'xy\nz\nw',
    );
  });

  it('writes no empty element except where one is asked for', () => {
    expect(leaf('a', ' \u0000')).toBeUndefined();
    expect(leaf('a', undefined)).toBeUndefined();
    expect(branch('a', undefined, branch('b', leaf('c', '')))).toBeUndefined();
    expect(xmlOf(stem('a', { b: undefined }))).toBe('<?xml version="1.0" encoding="UTF-8"?>\n<a/>\n');
  });
});

describe('the check of order', () => {
  const lists = { a: 'n:b n:c? n:d*' };
  const faults = (inside: string) => faultsOfOrder(read(`<a>${inside}</a>`), lists);

  it('sees what is missing, doubled, unknown, turned round and loose', () => {
    expect(faults('<b/><c/><d/><d/>')).toEqual([]);
    expect(faults('<c/>')).toEqual(['n:a lacks n:b']);
    expect(faults('<b/><c/><c/>')).toEqual(['n:a has 2 n:c']);
    expect(faults('<b/><e/>')).toEqual(['n:e in n:a is unknown or out of order']);
    expect(faults('<b/><d/><c/>')).toEqual(['n:c in n:a is unknown or out of order']);
    expect(faults('<b/>loose')).toEqual(['n:a holds words beside elements']);
    expect(faults('<b><c/></b>')).toEqual(['n:b is in no list']);
  });
});
