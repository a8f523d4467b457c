import { describe, expect, it } from 'vitest';
import { type LengthEntry, readLength } from '../../../src/domain/measuring/length-entry.js';
import { confirmed, type Reading } from '../../../src/domain/measuring/reading.js';

const inches = (typed: string) => readLength(typed, { preferred: 'in' });
const centimetres = (typed: string) => readLength(typed, { preferred: 'cm' });

const value = (reading: Reading<LengthEntry>): LengthEntry => {
  if (reading.kind !== 'ok') throw new Error(`expected a value, got ${JSON.stringify(reading)}`);
  return reading.value;
};

const sentence = (reading: Reading<LengthEntry>): string =>
  reading.kind === 'ask' || reading.kind === 'refuse' ? reading.sentence : '';

describe('a length as a person types it', () => {
  it.each([
    '38 1/2',
    '38½',
    '38-1/2',
    '38.5',
    ' 38  1 / 2 ',
    '38 ½',
    '38 and 1/2',
    '38⁄1'.replace('⁄1', ' 1⁄2'),
  ])('takes “%s” for 38 1/2 in where the studio works in inches', (typed) => {
    expect(value(inches(typed))).toMatchObject({ mm: '977.9', unit: 'in', typed });
  });

  it.each([
    '38 1/2 in',
    '38 1/2"',
    '38½ inches',
    '38 1/2 ″',
    '38 1/2”',
    '38 1/2“',
    "38 1/2''",
    '38½ In.',
    '38 1/2’’',
  ])('lets the unit typed in “%s” win over centimetres', (typed) => {
    expect(value(centimetres(typed))).toMatchObject({ mm: '977.9', unit: 'in', shown: '38 1/2 in' });
  });

  it.each([
    ['97.8 cm', '978', 'cm', '97.8 cm'],
    ['97,8 cm', '978', 'cm', '97.8 cm'],
    ['978 mm', '978', 'mm', '978 mm'],
    ['0.978 m', '978', 'm', '0.978 m'],
    ['0,978 m', '978', 'm', '0.978 m'],
    ['1 m 78 cm', '1780', 'cm', '1 m 78 cm'],
    ['38 1/2 cm', '385', 'cm', '38 1/2 cm'],
    ['38 5/8', '981.075', 'in', '38 5/8 in'],
    ['38 1/16', '966.7875', 'in', '38 1/16 in'],
    ['1/2', '12.7', 'in', '1/2 in'],
    ['.5', '12.7', 'in', '0.5 in'],
    ['38 1/3', '2921/3', 'in', '38 1/3 in'],
    ['0', '0', 'in', '0 in'],
  ])('reads “%s” as %s mm in %s, shown “%s”', (typed, mm, unit, shown) => {
    expect(value(inches(typed))).toEqual({ typed, mm, unit, shown });
  });

  it.each(['3 ft 2 1/2 in', '3\'2½"', '3’2½”', "3' 2 1/2", '1 yd 2 1/2 in', '3ft, 2.5in'])(
    'adds up “%s” to 38 1/2 in',
    (typed) => {
      expect(value(centimetres(typed))).toMatchObject({ mm: '977.9', unit: 'in' });
    },
  );

  it.each(['38 1/2', '38½', '1/2'])(
    'asks whether “%s” is centimetres or inches, and never guesses',
    (typed) => {
      const reading = centimetres(typed);
      expect(reading.kind).toBe('ask');
      expect(sentence(reading)).toMatch(/centimetres or inches\?$/);
      const choices = reading.kind === 'ask' ? reading.choices : [];
      expect(choices.map((choice) => value(centimetres(choice.typed)).unit)).toEqual(['in', 'cm']);
    },
  );

  it('takes a plain number in centimetres where the studio works in them', () => {
    expect(value(centimetres('97.8'))).toMatchObject({ mm: '978', unit: 'cm' });
    expect(value(centimetres('97,8'))).toMatchObject({ mm: '978', unit: 'cm' });
  });

  it.each([
    ['38½ full', 'full', '38 1/2 in full'],
    ['38 1/2 bare', 'bare', '38 1/2 in bare'],
    ['38 1/2 in Full', 'full', '38 1/2 in full'],
    ['38 1/2" bare', 'bare', '38 1/2 in bare'],
    ['full 38 1/2', 'full', '38 1/2 in full'],
  ])('keeps the tailor’s note in “%s”', (typed, note, shown) => {
    expect(value(inches(typed))).toMatchObject({ mm: '977.9', note, shown });
  });

  it('keeps the note through the question about the unit', () => {
    const reading = centimetres('38½ full');
    const first = reading.kind === 'ask' ? reading.choices[0] : undefined;
    expect(value(centimetres(first?.typed ?? ''))).toMatchObject({ note: 'full', mm: '977.9' });
  });

  it('refuses a fraction above one and says what was probably meant', () => {
    expect(inches('38 3/2')).toEqual({
      kind: 'refuse',
      sentence: '3/2 is more than one; did you mean 39 1/2?',
    });
    expect(sentence(inches('38 2/2'))).toContain('did you mean 39?');
  });

  it('asks what 38/2 means', () => {
    expect(inches('38/2')).toEqual({
      kind: 'ask',
      sentence: '38/2 can be read two ways: 19, or 38 1/2?',
      choices: [
        { words: '19 in', typed: '19 in' },
        { words: '38 1/2 in', typed: '38 1/2 in' },
      ],
    });
  });

  it('keeps the note through the question about a fraction', () => {
    const reading = inches('38/2 bare');
    const choices = reading.kind === 'ask' ? reading.choices : [];
    expect(choices.map(({ typed }) => value(inches(typed)).shown)).toEqual(['19 in bare', '38 1/2 in bare']);
  });

  it('asks whether a comma before three figures groups thousands', () => {
    const reading = inches('1,234 mm');
    expect(reading).toMatchObject({ kind: 'ask', choices: [{ typed: '1.234 mm' }, { typed: '1234 mm' }] });
    expect(value(inches('97,800 cm')).mm).toBe('978');
  });

  it('warns about 385 inches and keeps it when confirmed', () => {
    const reading = inches('385');
    expect(sentence(reading)).toBe('385 inches is 32 feet. Is that right?');
    expect(reading).toMatchObject({ choices: [{ typed: '38 1/2 in' }] });
    expect(value(confirmed(reading, true))).toMatchObject({ mm: '9779', typed: '385' });
    expect(confirmed(reading, false)).toBe(reading);
    expect(sentence(centimetres('978'))).toBe('978 centimetres is 9.78 m. Is that right?');
  });

  it('takes a sign only where the field is signed', () => {
    expect(sentence(inches('-1/4'))).toContain('less than nought');
    const corrected = readLength('-1/4', { preferred: 'in', signed: true });
    expect(value(corrected)).toMatchObject({ mm: '-6.35', shown: '−1/4 in' });
    expect(value(readLength('−1/4', { preferred: 'in', signed: true })).mm).toBe('-6.35');
    expect(value(readLength('+0.5 cm', { preferred: 'in', signed: true }))).toMatchObject({
      mm: '5',
      shown: '+0.5 cm',
    });
  });

  it.each([
    ['1/0', 'divided by nought'],
    ['38 1/0', 'divided by nought'],
    ['38 1/2 97.8', 'two measurements'],
    ['thirty eight', 'no figures'],
    ['38 1/2 + 1', 'not understood'],
    ['38 ells', 'not understood'],
    ['38 in 2 cm', 'do not belong together'],
    ['2 in 3 ft', 'do not belong together'],
    ['38²', 'not understood'],
    ['1e308', 'not understood'],
    ['NaN', 'no figures'],
    ['Infinity', 'no figures'],
    ['38 full bare', 'not both'],
    ['full', 'no figures'],
    ['{{38}}', 'not understood'],
    ['<b>38</b>', 'not understood'],
    ['9999999999999', 'too many digits'],
    ['99999 m', 'longer than any body'],
    ['9'.repeat(400), 'too long'],
    ['38 1/2 '.repeat(57), 'too long'],
    ['38 ס״מ', 'not understood'],
  ])('refuses “%s” and says why', (typed, why) => {
    const reading = inches(typed);
    expect(reading.kind).toBe('refuse');
    expect(sentence(reading)).toContain(why);
    expect(sentence(reading).length).toBeLessThan(160);
  });

  it.each(['', '   ', '\u00a0', '\u200f'])('takes nothing for nothing, which is not nought (%j)', (typed) => {
    expect(inches(typed)).toEqual({ kind: 'empty' });
  });

  it.each([
    ['３８ １/２', '977.9'],
    ['٣٨٫٥', '977.9'],
    ['३८.५', '977.9'],
    ['\u200f38 1/2\u200f', '977.9'],
    ['\u202b38½\u202c', '977.9'],
    ['38\u00a01/2', '977.9'],
    ['３８．５ｃｍ', '385'],
  ])('understands the digits of other scripts and marks of direction: %j', (typed, mm) => {
    expect(value(inches(typed)).mm).toBe(mm);
  });
});
