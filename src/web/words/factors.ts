import type { Explanation, FactorOf } from '../../domain/estimating/explain.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../domain/kernel/minutes.js';
import { minutesInWords } from './durations.js';
import { decimalSignOf, numeralText } from './numeral.js';

/** An explanation with the name of its operation. */
export type Explained = Explanation & { readonly name: string };

/**
 * A planned time as a plain multiplication: `planned 8 h × your usual 1.12 × jackets 1.03 × pad stitching 1.31 = 12 h 05`. Factors that
 * read 1.00 are left out; what is worked out is never rounded in between.
 */
export const inFactors = (
  { plannedMinutes, factors, minutes }: Explanation,
  of: { readonly plural: string; readonly kind: string; readonly locale: string },
): string => {
  const kind = of.kind.replaceAll('-', ' ').toLowerCase();
  const words: Readonly<Record<FactorOf, string>> = {
    usual: 'your usual',
    'starting value': 'not your own plan',
    type: of.plural,
    kind,
    pair: `${kind} in ${of.plural}`,
    size: 'its length',
    repeat: 'made before',
  };
  const told = factors.flatMap((factor) => {
    const times = new Decimal(factor.times.toFixed(6)).toDecimalPlaces(2);
    return times.eq(1) ? [] : [`${words[factor.of]} ${numeralText(times, decimalSignOf(of.locale), 2)}`];
  });
  return `${[`planned ${inWords(plannedMinutes)}`, ...told].join(' × ')} = ${inWords(minutes)}`;
};

const inWords = (minutes: number): string => minutesInWords(wholeMinutes(new Decimal(minutes.toFixed(3))));
