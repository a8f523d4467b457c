import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { Accent, FormModel, Link, Notice, PageModel } from '../../printing/templates/page-model.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock } from '../../storage/clock.js';
import { ActRow } from '../../storage/history/act.row.js';
import { isUuid } from '../../storage/ids.js';
import { ReadSide } from '../../storage/read-side.js';
import { KeptForms } from '../forms/kept-forms.js';
import type { Typed } from '../forms/typed.js';
import type { PageWords } from '../reply.js';
import type { Request } from '../visit.js';
import { roomsFor } from '../who-may.js';
import { mendingOf } from './mending.js';

/** A form as it was typed, on the version that was looked at then: what somebody changed meanwhile is still found out. */
const givenBack = (form: FormModel, { version, ...typed }: Typed): FormModel => ({
  ...form,
  values: { ...form.values, ...typed },
  ...(version ? { version } : {}),
  kept: true,
});

const mendingWords = (request: Request): { mending?: Link } => {
  const { back } = mendingOf(request);
  return back ? { mending: back } : {};
};

/** What stands round every page: the studio's name, who is signed in, what was just done, a form given back. */
@Injectable()
export class Surroundings {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
    private readonly keptForms: KeptForms,
  ) {}

  async around(request: Request, words: PageWords): Promise<PageModel> {
    const studio = await studioBook.maybe(this.read);
    const query = request.query as Record<string, string | undefined>;
    const kept =
      query.kept && request.visit ? this.keptForms.take(query.kept, request.visit.who.id) : undefined;
    return {
      studio: studio?.identity.name || 'Bastings',
      nonce: request.nonce ?? '',
      accent: (studio?.accent || 'madder') as Accent,
      keys: studio?.keysOn === false ? 'off' : 'on',
      ...(request.visit ? { signedInAs: request.visit.who.name, mayEnter: roomsFor(request.visit) } : {}),
      ...(request.visit && words.room !== 'none' ? mendingWords(request) : {}),
      ...(query.done && words.room !== 'none' ? await this.noticeOf(query.done, request) : {}),
      ...words,
      ...(kept && words.form ? { form: givenBack(words.form, kept) } : {}),
    };
  }

  private async noticeOf(act: string, request: Request): Promise<{ notice?: Notice }> {
    if (!isUuid(act) || !request.visit) return {};
    const row = await this.read.manager.findOneBy(ActRow, { id: act });
    if (!row || this.clock.ticks() - Date.parse(row.at) > 3_600_000) return {};
    const back = request.url.split('?')[0] ?? '/';
    return {
      notice: {
        text: `${row.sentence}.`,
        ...(row.undoable && !row.undone_by
          ? {
              undo: {
                action: `/history/${row.id}/undo`,
                text: 'Undo',
                label: `Undo: ${row.sentence}`,
                once: randomUUID(),
                values: { back },
              },
            }
          : {}),
      },
    };
  }
}
