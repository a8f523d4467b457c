import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';

/** What the page of a garment's pattern is drawn from. */
export type GarmentPatternTold = {
  readonly commission: Commission;
  readonly garment: Garment;
  readonly pattern: Pattern | undefined;
  /** All that hang there for its wearer. */
  readonly patterns: readonly Pattern[];
  /** The plan's draft operations. */
  readonly drafting: MakingPlan;
};

/** What was changed on a pattern last, in words. */
export const lastCorrectionInWords = ({ lastCorrection, correctedOn }: Pattern): string =>
  lastCorrection
    ? `${lastCorrection}${correctedOn ? ` (${dateInWords(correctedOn)})` : ''}`
    : 'as it was drafted';

/** The pattern of a garment: which it is, or how it comes to one. */
export const garmentPatternPage = (
  told: GarmentPatternTold,
  forms: { readonly cut?: FormModel; readonly hang?: FormModel } = {},
): { template: string; words: PageWords } => {
  const { commission, garment, pattern, patterns, drafting } = told;
  const url = `${garmentUrl(commission.id, garment.id)}/pattern`;
  const others = patterns.filter(({ id }) => id !== pattern?.id);
  const drafted = drafting.length > 0;
  return {
    template: 'commissions/patterns/garment',
    words: {
      title: `Pattern of the ${garment.name}`,
      room: 'commissions',
      crumbs: [
        ...commissionCrumbs(commission),
        { text: capitalised(garment.name), href: garmentUrl(commission.id, garment.id) },
      ],
      facts: pattern
        ? [
            {
              label: 'Cut from',
              text: pattern.number,
              href: `/clients/${pattern.clientId}/patterns/${pattern.id}`,
              note: pattern.name,
            },
            { label: 'Hangs on', text: pattern.hook },
            { label: 'Changed last', text: lastCorrectionInWords(pattern) },
          ]
        : [],
      hasPattern: pattern !== undefined,
      none: {
        action: `${url}/none`,
        text: 'It is cut from no kept pattern',
        once: freshForm('').once,
      },
      anyOthers: others.length > 0,
      cutForm: {
        ...(forms.cut ?? freshForm('', { leaveOutDrafting: drafted ? 'yes' : '' })),
        action: `${url}/cut-from`,
        idPrefix: 'cut-',
      },
      patterns: others.map(({ id, number, name, hook }) => ({
        value: id,
        text: `${number}, ${name}, on ${hook}`,
      })),
      drafted,
      draftingLabel: drafted
        ? `Leave out the drafting: ${countInWords(drafting.length, 'operation')} of the plan`
        : '',
      hangForm: {
        ...(forms.hang ?? freshForm('', { name: capitalised(garment.name) })),
        action: `${url}/hang-up`,
        idPrefix: 'hang-',
      },
      leave: { text: 'Back to the job sheet', href: garmentUrl(commission.id, garment.id) },
    },
  };
};
