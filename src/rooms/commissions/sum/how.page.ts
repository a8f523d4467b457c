import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { planToEstimate, type SumBasis } from '../../../domain/commissions/garment-sum.js';
import { explain } from '../../../domain/estimating/explain.js';
import { notebookStretch } from '../../../domain/estimating/garment-hours.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import { capitalised } from '../../../web/words/counts.js';
import { inFactors } from '../../../web/words/factors.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { shareInWords } from '../../../web/words/shares.js';
import type { Pricing } from './sum-of.js';

/** How every line of a plan comes to its hours, and how mending comes to its share; null where nothing is planned. */
export const howTable = (
  { garment, plan }: PlannedGarment,
  { lesson, notebook, usualMinutes, mendingShare }: SumBasis,
  { studio, typeName }: Pricing,
): object | null => {
  const timed = plan.filter((operation) => plannedMinutes(operation) > 0);
  if (timed.length === 0) return null;
  const { locale } = studio.identity;
  const of = typeName(garment.typeId);
  const asPlanned = planToEstimate(garment.typeId, timed);
  const stretch = new Decimal(
    notebookStretch({ plan: asPlanned, lesson, notebook, usualMinutes }).toFixed(6),
  ).toDecimalPlaces(2);
  return {
    table: {
      caption: 'Each planned time, as a multiplication',
      columns: [{ text: 'Operation' }, { text: 'At even chance' }, { text: 'Times known', figure: true }],
      rows: explain(lesson, asPlanned).map((one, place) => {
        const name = timed[place]?.name ?? one.kind;
        return {
          cells: [
            { text: capitalised(name) },
            { text: inFactors(one, { plural: of, kind: name, locale }) },
            { text: String(one.rows) },
          ],
        };
      }),
    },
    remarks: [
      ...(stretch.eq(1)
        ? []
        : [
            `The totals in your notebook then bring all of it to × ${numeralText(stretch, decimalSignOf(locale), 2)}.`,
          ]),
      ...(mendingShare?.gt(0)
        ? [`Mending adds ${shareInWords(mendingShare, 1)}, from what was mended so far.`]
        : []),
    ],
  };
};
