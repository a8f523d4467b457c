import { describe, expect, it } from 'vitest';
import {
  STRUCK,
  strikeOut,
  strikeOutOfDocument,
  wordsLeadingTo,
} from '../../../src/domain/clients/strike-out.js';

describe('words that are struck out', () => {
  it('go wherever they stand alone, in capitals or not', () => {
    expect(strikeOut('For Ann Ebb; ANN EBB came.', ['Ann Ebb'])).toBe(`For ${STRUCK}; ${STRUCK} came.`);
    expect(strikeOut('Annex for Zoë’s coat', ['Ann', 'Zoë'])).toBe(`Annex for ${STRUCK}’s coat`);
  });

  it('may hold signs that mean something in a pattern', () => {
    expect(strikeOut('(a+b)* wrote', ['(a+b)*'])).toBe(`${STRUCK} wrote`);
    expect(strikeOut('nothing to strike', ['', ' '])).toBe('nothing to strike');
  });

  it('go out of documents, at the beginning of a line and out of a document within', () => {
    const text = JSON.stringify({ to: 'For\nAnn Ebb', within: JSON.stringify(['\nAnn Ebb']), sum: 12 });
    const left = JSON.parse(strikeOutOfDocument(text, ['Ann Ebb']));
    expect(left).toEqual({ to: `For\n${STRUCK}`, within: JSON.stringify([`\n${STRUCK}`]), sum: 12 });
    expect(strikeOutOfDocument(text, ['Nobody'])).toBe(text);
    expect(strikeOutOfDocument('{no document of Ann Ebb', ['Ann Ebb'])).toBe(`{no document of ${STRUCK}`);
  });

  it('are the names whole and in parts, and addresses line by line', () => {
    expect(wordsLeadingTo(['Jo van Haddlestone', ''], ['Mill House,\n3\nRiverbend', '555 0100'])).toEqual([
      'Jo van Haddlestone',
      'Haddlestone',
      'Mill House',
      'Riverbend',
      '555 0100',
    ]);
  });
});
