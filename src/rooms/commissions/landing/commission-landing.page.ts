import type { PageWords } from '../../../web/reply.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { commissionCrumbs } from '../commission.page.js';
import type { CommissionLandingTold } from './gather-commission.js';
import { landingUrl } from './landing.page.js';
import { chancesTable, leadInWords, marginInWords, restsInWords, timeInWords } from './landing-words.js';

/** Where a commission will land, garment by garment and together. */
export const commissionLandingPage = (told: CommissionLandingTold): PageWords => {
  const { commission, studio, landing } = told;
  const { locale } = studio.identity;
  return {
    title: `Where it will land: ${commission.title || commission.number}`,
    tab: `Where it will land: ${commission.number}`,
    room: 'commissions',
    crumbs: commissionCrumbs(commission),
    lead: leadInWords(landing, locale),
    margin: marginInWords(landing),
    rests: restsInWords(landing),
    garments: garmentsTable(told),
    anyGarments: told.garments.length > 0,
    chances: chancesTable(landing, locale),
    isAgreed: told.garments.every(({ isAgreed }) => isAgreed),
  };
};

const garmentsTable = ({ garments, landing, commission, studio }: CommissionLandingTold): object => {
  const { locale } = studio.identity;
  return {
    caption: 'Garments',
    columns: [
      { text: 'Garment' },
      { text: 'So far', figure: true },
      { text: 'Forecast', figure: true },
      { text: 'Cost', figure: true },
      { text: 'Price', figure: true },
      { text: 'Profit', figure: true },
    ],
    rows: garments.map(({ work, landing: own, isAgreed }) => ({
      cells: [
        {
          text: capitalised(work.planned.garment.name),
          href: landingUrl(commission.id, work.planned.garment.id),
        },
        { text: timeInWords(own.soFar.minutes) },
        { text: timeInWords(own.at['0.5'].minutes) },
        { text: amountInWords(own.at['0.5'].cost.cost, locale) },
        { text: amountInWords(own.price, locale), ...(isAgreed ? {} : { note: 'not agreed yet' }) },
        { text: amountInWords(own.at['0.5'].profit, locale) },
      ],
    })),
    foot: [
      {
        cells: [
          { text: 'Together', note: 'at even chance for all of them at once' },
          { text: timeInWords(landing.soFar.minutes) },
          { text: timeInWords(landing.at['0.5'].minutes) },
          { text: amountInWords(landing.at['0.5'].cost.cost, locale) },
          { text: amountInWords(landing.price, locale) },
          { text: amountInWords(landing.at['0.5'].profit, locale) },
        ],
      },
    ],
  };
};
