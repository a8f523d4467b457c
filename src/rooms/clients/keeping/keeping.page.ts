import { randomUUID } from 'node:crypto';
import type { KeepingRule } from '../../../domain/clients/keeping.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { erasureUrl, heldUrl } from '../held/held.page.js';
import type { LongAway } from './time-to-ask.js';

export const KEEPING = '/house/keeping';

export const typedKeeping = ({ years, childYears }: KeepingRule): Record<string, string> => ({
  years: String(years),
  childYears: String(childYears),
});

/** Who has not been here for so long that it is time to ask, and after how many years that is. */
export const keepingPage = (
  away: readonly LongAway[],
  photosOver: number,
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'clients/held/keeping',
  words: {
    title: 'How long clients are kept',
    room: 'house',
    crumbs: [{ text: 'House', href: '/house' }],
    any: away.length > 0,
    away: {
      caption: 'Not here for a long time',
      columns: [{ text: 'Name' }, { text: 'Number' }, { text: 'Last here' }, { text: '' }, { text: '' }],
      rows: away.map(({ id, name, code, lastHere }) => ({
        cells: [
          { text: name, href: heldUrl(id) },
          { text: code },
          { text: dateInWords(lastHere) },
          { text: 'Erase', href: erasureUrl(id) },
          {
            text: '',
            press: {
              action: `${KEEPING}/${id}`,
              text: 'Keep a year longer',
              label: `Keep ${name} a year longer`,
              once: randomUUID(),
            },
          },
        ],
      })),
    },
    photosOver:
      photosOver === 0
        ? ''
        : `${countInWords(photosOver, 'photograph')} past the agreed day ${photosOver === 1 ? 'is' : 'are'} shown to nobody and ${photosOver === 1 ? 'goes' : 'go'} within a day.`,
    form: { ...form, action: KEEPING },
    leave: { text: 'Leave without saving', href: '/house' },
  },
});
