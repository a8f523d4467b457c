import { foldForSearch } from '../clients/client.js';

/** A chapter of the handbook: its address, its heading, and words by which it is found beside those. */
export type Chapter = { readonly slug: string; readonly title: string; readonly words: string };

/** The chapters, in the order of one commission. A new one is one more line here and a template of the same name. */
export const CHAPTERS: readonly Chapter[] = [
  {
    slug: 'first-evening',
    title: 'The first evening',
    words: 'start begin set up hour rate questions notebook',
  },
  {
    slug: 'measure',
    title: 'Measure',
    words: 'client measurements card tape inches list child guardian photographs',
  },
  {
    slug: 'plan-and-price',
    title: 'Plan and price',
    words: 'commission garment operation minutes certainty job sheet cost',
  },
  { slug: 'quote', title: 'The quote', words: 'paper PDF version answer accepted declined deposit' },
  {
    slug: 'cloth',
    title: 'Cloth',
    words: 'material lot purchase stash reserve take out stocktake supplier custody shopping',
  },
  { slug: 'at-the-bench', title: 'At the bench', words: 'clock phone minutes forgotten stage docket time' },
  { slug: 'fittings', title: 'Fittings', words: 'correction pattern calendar appointment' },
  {
    slug: 'changes',
    title: 'Changes on the way',
    words: 'extra cause compliments other than planned price date',
  },
  {
    slug: 'deliver-and-get-paid',
    title: 'Deliver, and get paid',
    words: 'hand over invoice payment receipt reminder credit note bank tax',
  },
  { slug: 'reckoning', title: 'Reckoning and lessons', words: 'close profit earned hours learn lesson' },
  { slug: 'promises', title: 'Promises', words: 'date late holiday ill rush backlog' },
  {
    slug: 'the-house',
    title: 'The house',
    words: 'people backup restore passphrase phone history undo erase privacy keys help',
  },
];

/**
 * The chapters that hold every word asked for in their heading or among their words, in the handbook's order.
 *
 * @param asked as typed; letters count without accents or capitals
 * @see test/domain/house/handbook.test.ts
 */
export const chaptersFound = (asked: string): Chapter[] => {
  const words = foldForSearch(asked).split(' ');
  return CHAPTERS.filter((chapter) => {
    const said = foldForSearch(`handbook ${chapter.title} ${chapter.words}`);
    return words.every((word) => said.includes(word));
  });
};
