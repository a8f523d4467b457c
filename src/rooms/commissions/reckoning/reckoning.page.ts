import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import { type FrozenReckoning, frozenMoney } from '../../../domain/reckoning/frozen-reckoning.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { capitalised, listInWords } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { bridgePicture } from './bridge.picture.js';
import { modeInWords } from './close-garment.js';
import { bridgeTable, hourSentence, reckoningSentence } from './reckoning-words.js';

export const reckoningUrl = (garment: Pick<Garment, 'id' | 'commissionId'>): string =>
  `${garmentUrl(garment.commissionId, garment.id)}/reckoning`;

const time = (text: string): string => minutesInWords(wholeMinutes(new Decimal(text)));

/** Everything a reckoning says, frozen or as it stands: the sentence, the bridge, and what is behind it. */
export const reckoningWords = (
  commission: Commission,
  garment: Garment,
  one: FrozenReckoning,
  locale: string,
) => {
  const entries = `${garmentUrl(commission.id, garment.id)}/landing#entries`;
  const amount = (text: string): string => amountInWords(frozenMoney(one, text), locale);
  const causes = one.byCause.filter(({ minutes }) => minutes > 0);
  return {
    title: `Reckoning: ${capitalised(garment.name)}`,
    room: 'commissions' as const,
    crumbs: [
      ...commissionCrumbs(commission),
      { text: capitalised(garment.name), href: garmentUrl(commission.id, garment.id) },
    ],
    sentence: reckoningSentence(one, locale),
    hour: hourSentence(one, locale),
    assumed:
      one.takenAsPlanned.length > 0
        ? `Nothing was written down for ${listInWords([...one.takenAsPlanned])}, so it is taken as planned.`
        : '',
    bridge: bridgeTable(one, locale),
    picture: bridgePicture(one),
    cost: {
      caption: 'What it cost',
      columns: [{ text: 'What' }, { text: 'Money', figure: true }],
      rows: (
        [
          ['Materials', one.cost.materials, '#materials'],
          ['Labour', one.cost.labour, '#entries'],
          ['Machine', one.cost.machine, '#entries'],
          ['Overhead', one.cost.overhead, ''],
          ['Expenses', one.cost.expenses, '#expenses'],
        ] as const
      ).map(([text, money, place]) => ({
        cells: [
          { text, ...(place ? { href: entries.replace('#entries', place) } : {}) },
          { text: amount(money) },
        ],
      })),
      foot: [
        { cells: [{ text: 'Cost' }, { text: amount(one.cost.cost) }] },
        { cells: [{ text: 'Price before tax' }, { text: amount(one.price) }] },
      ],
    },
    operations: {
      caption: 'By operation, the worst first',
      columns: [
        { text: 'Operation' },
        { text: 'Planned', figure: true },
        { text: 'Took', figure: true },
        { text: 'Money', figure: true },
      ],
      rows: one.operations.map((line) => ({
        cells: [
          {
            text: capitalised(line.name),
            href: entries,
            ...(line.mode ? { note: modeInWords(line.mode) } : {}),
          },
          { text: time(line.planned) },
          { text: time(line.actual) },
          { text: amount(line.amount) },
        ],
      })),
    },
    modes: {
      caption: 'By mode',
      columns: [{ text: 'How' }, { text: 'Planned', figure: true }, { text: 'Took', figure: true }],
      rows: one.byMode.map(({ mode, planned, actual }) => ({
        cells: [{ text: capitalised(modeInWords(mode)) }, { text: time(planned) }, { text: time(actual) }],
      })),
    },
    anyCauses: causes.length > 0,
    causes: {
      caption: 'By cause, what was not in the plan',
      columns: [{ text: 'Cause' }, { text: 'Took', figure: true }],
      rows: causes.map(({ cause, minutes }) => ({
        cells: [{ text: capitalised(cause), href: entries }, { text: minutesInWords(minutes) }],
      })),
    },
    basting:
      one.bastingMinutes > 0
        ? `Of it, basting that was put in to be taken out again: ${minutesInWords(one.bastingMinutes)}.`
        : '',
  };
};
