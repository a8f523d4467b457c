import { expect, it } from 'vitest';
import { paperLanguageOf, USUAL_PAPER_CHOICES } from '../../../src/domain/house/paper-choices.js';
import { numberSeries } from '../../../src/domain/papers/numbering/number-series.js';

it('writes papers in the client’s language, else in the house’s own', () => {
  expect(paperLanguageOf({ language: 'de' }, '')).toBe('de');
  expect(paperLanguageOf({ language: 'de' }, 'fr')).toBe('fr');
});

it('begins with series that count', () => {
  for (const pattern of [USUAL_PAPER_CHOICES.invoiceSeries, USUAL_PAPER_CHOICES.creditSeries])
    expect(numberSeries.parse(pattern).restartsYearly).toBe(true);
});
