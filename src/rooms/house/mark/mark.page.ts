import { randomUUID } from 'node:crypto';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { KeptMark } from '../../../storage/books/house/mark-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { houseCrumb } from '../house.page.js';

export const markUrl = '/house/mark';

export const markForm = (mark: KeptMark | undefined): FormModel =>
  freshForm(markUrl, { alternative: mark?.alternative ?? '' }, mark?.version);

/** The mark as it is, and the form for another. */
export const markPage = (
  mark: KeptMark | undefined,
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'house/papers/mark',
  words: {
    title: 'The mark on the letterhead',
    room: 'house',
    crumbs: [houseCrumb],
    form: { ...form, action: markUrl },
    mark: mark
      ? {
          // The version keeps a browser from showing the one before.
          picture: `${markUrl}/picture?version=${mark.version}`,
          words: mark.alternative,
          takeOff: {
            action: `${markUrl}/take-off`,
            text: 'Take it off',
            once: randomUUID(),
            values: { version: String(mark.version) },
          },
        }
      : null,
    leave: { text: 'Leave without saving', href: '/house' },
  },
});
