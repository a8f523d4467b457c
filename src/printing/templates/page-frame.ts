import type { FormModel, PageModel, Room } from './page-model.js';

const rooms: { room: Room; text: string; href: string; key: string }[] = [
  { room: 'bench', text: 'Bench', href: '/', key: 'b' },
  { room: 'clients', text: 'Clients', href: '/clients', key: 'c' },
  { room: 'commissions', text: 'Commissions', href: '/commissions', key: 'm' },
  { room: 'cloth-room', text: 'Cloth room', href: '/cloth-room', key: 't' },
  { room: 'papers', text: 'Papers', href: '/papers', key: 'p' },
  { room: 'lessons', text: 'Lessons', href: '/lessons', key: 'l' },
  { room: 'rates', text: 'Rates', href: '/rates', key: 'r' },
  { room: 'house', text: 'House', href: '/house', key: 'h' },
];

const needsAttention = (form: FormModel | undefined): boolean =>
  form !== undefined && (form.errors.length > 0 || (form.questions ?? []).length > 0);

/** The browser's title: what went wrong first, then the page, then the studio. */
const documentTitle = ({ title, tab = title, studio, form }: PageModel): string => {
  const first = form && form.errors.length > 0 ? 'Error: ' : needsAttention(form) ? 'Is that right? ' : '';
  return `${first}${tab} · ${studio}`;
};

/** Everything the layout shows around a page, worked out from the page's own model. */
export const frameOf = (page: PageModel, body: string) => ({
  ...page,
  body,
  documentTitle: documentTitle(page),
  language: page.language ?? 'en',
  accent: page.accent ?? 'madder',
  keys: page.keys ?? 'on',
  find: page.find ?? '',
  refused: needsAttention(page.form),
  rooms: rooms
    .filter(({ room }) => page.mayEnter?.includes(room) ?? true)
    .map((entry) => ({ ...entry, here: entry.room === page.room })),
});
