import type { Commission } from '../../domain/commissions/commission.js';
import { MOST_GARMENTS } from '../../domain/commissions/commission.js';
import type { GarmentType } from '../../domain/making/garment-type.js';
import { MAKE_WORDS, MAKES } from '../../domain/making/mode.js';
import type { FormModel } from '../../printing/templates/page-model.js';
import { freshForm } from '../../web/forms/form.js';
import type { PageWords } from '../../web/reply.js';
import { capitalised } from '../../web/words/counts.js';
import { commissionCrumbs, commissionsCrumb, commissionUrl } from './commission.page.js';

type Drawn = { template: string; words: PageWords };
type Option = { value: string; text: string };

/** As many lines as are open at once; the rest unfold. */
const LINES_OPEN = 4;

export const typeOptions = (types: readonly GarmentType[]): Option[] =>
  types.map(({ id, name }) => ({ value: id, text: capitalised(name) }));
export const makeOptions: Option[] = MAKES.map((make) => ({
  value: make,
  text: capitalised(MAKE_WORDS[make]),
}));

export const newCommissionForm = (client: string): FormModel =>
  freshForm('/commissions', { client, 'garments.0.make': 'hand-where-it-shows' });

/** The form that opens a commission with up to twelve garments. */
export const newCommissionPage = (
  form: FormModel,
  offered: { readonly people: readonly string[]; readonly types: readonly GarmentType[] },
): Drawn => {
  const columns = [
    { text: 'Garment type', options: typeOptions(offered.types) },
    { text: 'Make', options: makeOptions },
    { text: 'Its name', wide: true },
    { text: 'Wearer', wide: true },
    { text: 'Due' },
  ];
  const row = (place: number) => ({
    label: `garment ${place + 1}`,
    names: ['type', 'make', 'name', 'wearer', 'due'].map((field) => `garments.${place}.${field}`),
  });
  const rows = Array.from({ length: MOST_GARMENTS }, (_, place) => row(place));
  const filled = Object.entries(form.values).some(
    ([name, value]) => value !== '' && Number(/^garments\.(\d+)\./.exec(name)?.[1] ?? 0) >= LINES_OPEN,
  );
  return {
    template: 'commissions/new',
    words: {
      title: 'New commission',
      room: 'commissions',
      crumbs: [commissionsCrumb],
      form: { ...form, action: '/commissions' },
      people: [...offered.people],
      first: { caption: 'Garments', columns, rows: rows.slice(0, LINES_OPEN), quietCaption: true },
      more: { caption: 'Further garments', columns, rows: rows.slice(LINES_OPEN), quietCaption: true },
      unfolded: filled,
      leave: { text: 'Leave without opening it', href: '/commissions' },
    },
  };
};

/** The form that corrects a commission. */
export const correctCommissionPage = (
  form: FormModel,
  commission: Commission,
  people: readonly string[],
): Drawn => ({
  template: 'commissions/correct',
  words: {
    title: `Correct ${commission.number}`,
    room: 'commissions',
    crumbs: commissionCrumbs(commission),
    form: { ...form, action: commissionUrl(commission.id) },
    people: [...people],
    leave: { text: 'Leave without saving', href: commissionUrl(commission.id) },
  },
});
