/**
 * Neutral words for how a figure stands, to choose from; free text may stand beside them.
 *
 * Common practice, no source.
 */
export const FIGURATION_WORDS: readonly string[] = [
  'erect',
  'head forward',
  'rounded upper back',
  'hollow back',
  'flat back',
  'blades prominent',
  'square shoulders',
  'sloping shoulders',
  'left shoulder lower',
  'right shoulder lower',
  'arms forward',
  'arms back',
  'chest prominent',
  'front full below the waist',
  'left hip higher',
  'right hip higher',
  'seat prominent',
  'seat flat',
  'long in the body',
  'short in the body',
  'one leg longer',
];

const NOT_KEPT =
  /\b(bmi|body[ -]?mass|weigh(s|t|ing)?|overweight|underweight|obese|kilos?|kg|lbs?|pounds|diagnos\w*|disease|pregnan\w*|surgery)\b/i;

/**
 * Asks about words that a pattern does not need: weight, body index, reasons of health.
 *
 * @returns a sentence to show beside the field, or undefined when there is nothing to ask; it never blocks
 */
export const questionAboutFiguration = (figuration: string): string | undefined => {
  const word = NOT_KEPT.exec(figuration)?.[0];
  return word === undefined
    ? undefined
    : `“${word}” is not needed for a pattern. Write what the pattern needs, in words the client may read, and never why.`;
};
