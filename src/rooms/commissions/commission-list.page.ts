import type { Client } from '../../domain/clients/client.js';
import { STANDING_WORDS } from '../../domain/commissions/garment-mark.js';
import type { PageOf } from '../../storage/books/client-book.js';
import type { ListedCommission } from '../../storage/books/commission-book.js';
import type { PageWords } from '../../web/reply.js';
import { countInWords } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';
import { commissionUrl } from './commission.page.js';

/** What was asked of the list. */
export type Looking = { readonly asked: string; readonly after: string; readonly client: Client | undefined };

/** The commissions, newest first, and what was looked for among them. */
export const commissionListPage = (found: PageOf<ListedCommission>, looking: Looking): PageWords => {
  const { asked, after, client } = looking;
  const any = found.items.length > 0;
  return {
    title: client ? `Commissions of ${client.name}` : asked ? `Commissions: ${asked}` : 'Commissions',
    tab: 'Commissions',
    room: 'commissions',
    asked,
    any,
    noneYet: !any && !asked && !after,
    ofClient: client
      ? { id: client.id, name: client.name, href: `/clients/${client.id}` }
      : { id: '', name: '', href: '' },
    open: client ? `/commissions/new?client=${client.id}` : '/commissions/new',
    found: {
      caption: 'Commissions, newest first',
      quietCaption: true,
      columns: [
        { text: 'Commission' },
        { text: 'Client' },
        { text: 'Garments', figure: true },
        { text: 'Opened' },
        { text: 'Wanted by' },
      ],
      rows: found.items.map((one) => ({
        cells: [
          { text: one.title, href: commissionUrl(one.id), note: one.number },
          { text: one.clientName },
          { text: countInWords(one.garments, 'garment'), note: standingsInWords(one) },
          { text: dateInWords(one.openedOn) },
          { text: one.wantedBy ? dateInWords(one.wantedBy) : '' },
        ],
      })),
    },
    pager: pagerOf(looking, found.next),
  };
};

/** Where its garments stand: `cut`, where all do; `2 cut, 1 handed over`. */
const standingsInWords = ({ garments, standings }: ListedCommission): string =>
  (['cut', 'delivered', 'closed', 'cancelled'] as const)
    .flatMap((standing) => {
      const count = standings[standing] ?? 0;
      if (count === 0) return [];
      return [count === garments ? STANDING_WORDS[standing] : `${count} ${STANDING_WORDS[standing]}`];
    })
    .join(', ');

const pagerOf = ({ asked, after, client }: Looking, next: string | undefined): Record<string, unknown> => {
  const query = [
    ...(client ? [`client=${client.id}`] : []),
    ...(asked ? [`q=${encodeURIComponent(asked)}`] : []),
  ];
  const to = (more: string[]): string => `/commissions?${[...query, ...more].join('&')}`;
  return {
    label: 'Commissions',
    ...(after ? { earlier: { text: 'From the newest', href: to([]) } } : {}),
    ...(next ? { later: { text: 'Further back', href: to([`after=${next}`]) } } : {}),
  };
};
