import { z } from 'zod';
import { CERTAINTIES, DEPOSIT_RULES, type Studio } from '../../../domain/house/studio.js';
import { marginOfMarkup, markupOfMargin } from '../../../domain/pricing/margin.js';
import { oneOf } from '../../../web/fields/fields.js';
import { shareInWords } from '../../../web/words/shares.js';
import type { Section } from './section.js';

/** The profit said the other way round: a margin as a markup, a markup as a margin. */
export const otherProfit = ({ pricing: { profitBasis, profitShare } }: Pick<Studio, 'pricing'>): string =>
  profitBasis === 'margin'
    ? `A margin of ${shareInWords(profitShare, 2)} of the price is a markup of ${shareInWords(markupOfMargin(profitShare), 2)} on the cost.`
    : `A markup of ${shareInWords(profitShare, 2)} on the cost is a margin of ${shareInWords(marginOfMarkup(profitShare), 2)} of the price.`;

const CERTAINTY_WORDS = { '0.5': 'even', '0.8': '4 in 5', '0.9': '9 in 10' } as const;

/** What a new price begins with. */
export const pricing: Section = {
  path: 'pricing',
  title: 'Pricing',
  summary: ({ pricing: said }) =>
    `${CERTAINTY_WORDS[said.certainty]}; ${said.profitBasis} ${shareInWords(said.profitShare, 2)}; up to ${said.roundTo.toString()}`,
  values: ({ pricing: said }, show) => ({
    certainty: said.certainty,
    profitBasis: said.profitBasis,
    profitShare: show.share(said.profitShare),
    handlingShare: show.share(said.handlingShare),
    minimumCharge: show.money(said.minimumCharge),
    rushShare: show.share(said.rushShare),
    rushOn: said.rushOn,
    roundTo: show.money(said.roundTo),
    depositRule: said.depositRule,
    depositShare: show.share(said.depositShare),
  }),
  schema: (kit, studio) =>
    z
      .strictObject({
        certainty: oneOf(CERTAINTIES),
        profitBasis: oneOf(['margin', 'markup']),
        profitShare: kit.share('Say what profit a price has; 0 for none.', { most: 1000 }),
        handlingShare: kit.share('Say what share handling takes; 0 for none.'),
        minimumCharge: kit.optionalMoney(),
        rushShare: kit.share('Say what share rush work adds; 0 for none.', { most: 300 }),
        rushOn: oneOf(['labour', 'price']),
        roundTo: kit
          .money('Say to what step prices go up.')
          .refine((step) => step.minor > 0, 'The step is above 0.'),
        depositRule: oneOf(DEPOSIT_RULES),
        depositShare: kit.share('Say what share the deposit takes.'),
      })
      .refine((said) => said.profitBasis === 'markup' || said.profitShare.lt(1), {
        path: ['profitShare'],
        message: 'A margin stays below 100 %: at 100 % of the price there is no price.',
      })
      .transform((said) => ({
        ...studio,
        pricing: { ...said, minimumCharge: said.minimumCharge?.isZero() ? undefined : said.minimumCharge },
      })),
  words: (studio) => ({
    currency: studio.identity.currency,
    otherProfit: otherProfit(studio),
    certainties: CERTAINTIES.map((value) => ({ value, text: CERTAINTY_WORDS[value] })),
    bases: [
      { value: 'margin', text: 'margin, a share of the price' },
      { value: 'markup', text: 'markup, a share of the cost' },
    ],
    rushes: [
      { value: 'labour', text: 'of the labour' },
      { value: 'price', text: 'of the whole price' },
    ],
    deposits: [
      { value: 'none', text: 'no deposit' },
      { value: 'share', text: 'a share of the price' },
      { value: 'materials-and-labour', text: 'all materials and a share of the labour' },
    ],
  }),
};
