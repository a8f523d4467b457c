import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { readSpecLine } from '../../../src/domain/making/spec-line.js';
import { aKnown } from './an-operation.js';

const each = { driver: 'each' as const, typicalCount: new Decimal(2) };
const ofType = [
  aKnown('Breast welt pocket'),
  aKnown('Hip pockets (pair), jetted, with flaps'),
  aKnown('Inside pockets', each),
  aKnown('Pad-stitch the lapels (pair)'),
  aKnown('Pad-stitch the chest'),
  aKnown('Buttonholes, hand-worked', { ...each, kind: 'buttonholes' }),
  aKnown('Buttons sewn, shanked', { ...each, kind: 'buttons' }),
  aKnown('Embroidery', { driver: 'cm2' }),
  aKnown('Trimming', { driver: 'm' }),
  aKnown('Fittings (2)', { ...each, kind: 'fittings' }),
];
const others = [
  aKnown('Moth hole: re-weave or darn', { isMenu: true, garmentType: 'alteration' }),
  aKnown('Bellows pockets', { ...each, garmentType: 'overcoat' }),
];

const read = (typed: string) => {
  const line = readSpecLine(typed, ofType, others);
  if (line.kind !== 'ok') return line;
  return [line.value.known.name, line.value.quantity?.toFixed()];
};

describe('a line added by typing', () => {
  it.each([
    ['inside pocket 2', 'Inside pockets', '2'],
    ['inside pocket, 2', 'Inside pockets', '2'],
    ['2 inside pockets', 'Inside pockets', '2'],
    ['Inside Pocket x 2', 'Inside pockets', '2'],
    ['inside pockets ×2', 'Inside pockets', '2'],
    ['２ inside pockets', 'Inside pockets', '2'],
    ['inside pocket', 'Inside pockets', undefined],
    ['pad stitch lapels', 'Pad-stitch the lapels (pair)', undefined],
    ['button 14', 'Buttons sewn, shanked', '14'],
    ['buttonhole 11', 'Buttonholes, hand-worked', '11'],
    ['embroidery 40 cm2', 'Embroidery', '40'],
    ['40 cm² of embroidery', 'Embroidery', '40'],
    ['trimming 2.5 m', 'Trimming', '2.5'],
    ['trimming 250 cm', 'Trimming', '2.5'],
    ['2 hip pockets', 'Hip pockets (pair), jetted, with flaps', '1'],
    ['2 pairs of hip pockets', 'Hip pockets (pair), jetted, with flaps', '2'],
    ['bellows pocket 2', 'Bellows pockets', '2'],
    ['Fittings (2)', 'Fittings (2)', undefined],
    ['fittings 3', 'Fittings (2)', '3'],
  ])('“%s” is %s, quantity %s', (typed, name, quantity) => {
    expect(read(typed)).toEqual([name, quantity]);
  });

  it('asks which one, and each choice is understood', () => {
    const line = readSpecLine('pocket 2', ofType, others);
    expect(line).toMatchObject({ kind: 'ask', sentence: 'Which one is “pocket”?' });
    const choices = line.kind === 'ask' ? line.choices : [];
    expect(choices.map(({ words }) => words)).toEqual([
      'Breast welt pocket',
      'Hip pockets (pair), jetted, with flaps',
      'Inside pockets',
    ]);
    expect(choices.map(({ typed }) => read(typed))).toEqual([
      ['Breast welt pocket', '2'],
      ['Hip pockets (pair), jetted, with flaps', '1'],
      ['Inside pockets', '2'],
    ]);
  });

  it('asks the minutes of what it does not know', () => {
    expect(readSpecLine('Bee-veil loops 3', ofType, others)).toEqual({
      kind: 'new',
      name: 'Bee-veil loops',
      driver: 'each',
      quantity: new Decimal(3),
      sentence: '“Bee-veil loops” is new here. How many minutes does it take each?',
    });
    expect(read('moth hole')).toMatchObject({ kind: 'new' });
    expect(readSpecLine('Monogram', ofType)).toMatchObject({ kind: 'new', name: 'Monogram', driver: 'once' });
  });

  it('refuses a unit the operation does not go by, nought, numbers alone and texts too long', () => {
    expect(read('inside pocket 40 cm2')).toMatchObject({
      kind: 'refuse',
      sentence: expect.stringContaining('each'),
    });
    expect(read('inside pocket 0')).toMatchObject({ kind: 'refuse' });
    expect(read('12')).toMatchObject({ kind: 'refuse' });
    expect(read('x'.repeat(400))).toMatchObject({ kind: 'refuse' });
    expect(read('  ')).toEqual({ kind: 'empty' });
  });

  it('keeps markup and other scripts as words of a new operation', () => {
    expect(read('<b>{{x}}</b>')).toMatchObject({ kind: 'new', name: '<b>{{x}}</b>' });
    expect(read('כיס פנימי 2')).toMatchObject({ kind: 'new', name: 'כיס פנימי' });
  });
});
