import type { Client } from '../../../domain/clients/client.js';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import type { FormModel, Link } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clientsCrumb, clientUrl } from '../client.page.js';

export const patternsUrl = (clientId: string): string => `${clientUrl(clientId)}/patterns`;

const crumbsOf = ({ id, name }: Client): Link[] => [clientsCrumb, { text: name, href: clientUrl(id) }];

/** Somebody's patterns on their hooks. */
export const patternsPage = (
  client: Client,
  patterns: readonly Pattern[],
  types: ReadonlyMap<string, string>,
): PageWords => ({
  title: `Patterns of ${client.name}`,
  tab: `Patterns, ${client.code}`,
  room: 'clients',
  crumbs: crumbsOf(client),
  any: patterns.length > 0,
  patterns: {
    caption: 'On their hooks, newest first',
    columns: [{ text: 'Number' }, { text: 'For' }, { text: 'Hangs on' }, { text: 'Changed last' }],
    rows: patterns.map((pattern) => ({
      cells: [
        { text: pattern.number, href: `${patternsUrl(client.id)}/${pattern.id}` },
        { text: pattern.name, note: types.get(pattern.garmentType) ?? '' },
        { text: pattern.hook },
        {
          text: pattern.lastCorrection || 'as it was drafted',
          ...(pattern.correctedOn ? { note: dateInWords(pattern.correctedOn) } : {}),
        },
      ],
    })),
  },
  commissions: { text: 'Commissions', href: `/commissions?client=${client.id}` },
});

/** One pattern, to be corrected. @param from the garment it was drafted for */
export const patternPage = (
  client: Client,
  pattern: Pattern,
  form: FormModel,
  from: Link | undefined,
): { template: string; words: PageWords } => ({
  template: 'clients/patterns/pattern',
  words: {
    title: `Pattern ${pattern.number}`,
    room: 'clients',
    crumbs: [...crumbsOf(client), { text: 'Patterns', href: patternsUrl(client.id) }],
    form: { ...form, action: `${patternsUrl(client.id)}/${pattern.id}` },
    from,
    leave: { text: 'Leave without saving', href: patternsUrl(client.id) },
  },
});
