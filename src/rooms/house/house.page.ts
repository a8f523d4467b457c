import type { Studio } from '../../domain/house/studio.js';
import type { FormModel, Link } from '../../printing/templates/page-model.js';
import type { PageWords } from '../../web/reply.js';
import type { StandingWords } from './backup/standing-words.js';
import { type Section, typedShow } from './sections/section.js';
import { sections } from './sections/sections.js';

export const houseCrumb: Link = { text: 'House', href: '/house' };

/** Its line says how it stands. */
const BACKUP = '/house/backup';

/** What the house keeps that is no answer of its own. */
const ELSEWHERE = [
  { label: 'The mark', text: 'A picture on the letterhead', href: '/house/mark' },
  {
    label: 'Garment types and operations',
    text: 'What is made, what it takes, what is measured',
    href: '/house/making',
  },
  { label: 'People', text: 'Who works here, what they may do, and their phones', href: '/house/people' },
  { label: 'A phone at the bench', text: 'Where a phone types the code that lets it in', href: '/pair' },
  {
    label: 'This sign-in and programs',
    text: 'Passphrase, signed-in browsers, programs, keys',
    href: '/house/people-and-devices',
  },
  {
    label: 'Photographs',
    text: 'How long they are kept, and whether of children',
    href: '/house/photographs',
  },
  { label: 'How long clients are kept', text: 'Who has not been here for years', href: '/house/keeping' },
  {
    label: 'Calendar',
    text: 'Fittings and promised days on a telephone or another program',
    href: '/house/calendar',
  },
  { label: 'Rates', text: 'What an hour costs', href: '/rates' },
  { label: 'House price list', text: 'Counter work, alterations, make-and-trim', href: '/rates/price-list' },
  { label: 'Backup', text: '', href: BACKUP },
  { label: 'Export', text: 'Everything as open files, to take away', href: '/house/export' },
  { label: 'History', text: 'Who changed what, and when', href: '/history' },
];

/** The table of contents. */
export const contentsPage = (studio: Studio, backups: StandingWords): PageWords => ({
  title: 'House',
  room: 'house',
  cautions: backups.cautions,
  contents: {
    caption: 'What the house has settled',
    quietCaption: true,
    columns: [{ text: 'Subject' }, { text: 'As it stands' }],
    rows: [
      ...sections
        .filter(({ path }) => path !== 'keys')
        .map(({ path, title, summary }) => ({
          cells: [{ text: title, href: `/house/${path}` }, { text: summary(studio) }],
        })),
      ...ELSEWHERE.map(({ label, text, href }) => ({
        cells: [{ text: label, href }, { text: href === BACKUP ? backups.last : text }],
      })),
    ],
  },
});

export const typedSection = (section: Section, studio: Studio): Record<string, string> =>
  Object.fromEntries(
    Object.entries(section.values(studio, typedShow(studio.identity.locale))).map(([name, value]) => [
      name,
      String(value),
    ]),
  );

export const sectionPage = (
  section: Section,
  studio: Studio,
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: `house/${section.folder ? `${section.folder}/` : ''}${section.path}`,
  words: {
    title: section.title,
    room: 'house',
    crumbs: [houseCrumb],
    form: { ...form, action: `/house/${section.path}` },
    leave: { text: 'Leave without saving', href: '/house' },
    ...section.words(studio),
  },
});
