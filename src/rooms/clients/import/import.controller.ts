import { Body, Controller, Get, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { packed, unpacked } from '../../../web/tables/carried.js';
import { readUpload } from '../../../web/tables/read-upload.js';
import { Hand } from '../../../web/visit.js';
import { bringClients, planImport, tableOf } from './bring-clients.js';
import { CLIENT_LIST, ImportFields, type ImportWords } from './import.form.js';
import { columnsForm, columnsPage, importUrl, previewPage, uploadForm, uploadPage } from './import.page.js';

/** The packed file, whole: it is longer than anything a person types. */
const carriedIn = (body: unknown): string => {
  const { carried } = (body ?? {}) as Record<string, unknown>;
  return typeof carried === 'string' ? carried : '';
};

const wordsOf = (typed: Typed): ImportWords => {
  const places = Object.keys(typed).flatMap((name) => /^to\.(\d{1,3})$/.exec(name)?.[1] ?? []);
  const columns = Array.from(
    { length: Math.max(0, ...places.map((place) => Number(place) + 1)) },
    (_, place) => ({
      to: typed[`to.${place}`] ?? '',
      unit: typed[`unit.${place}`] ?? 'cm',
    }),
  );
  const { headed, takenOn, takenBy, twins, leaveTroubles, keepUnusual } = typed;
  return parse(ImportFields, { headed, columns, takenOn, takenBy, twins, leaveTroubles, keepUnusual });
};

/** Bringing in clients from a list, step by step; nothing is kept before the last. */
@Controller('clients/import')
export class ImportController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  choose(): Reply {
    const { template, words } = uploadPage(uploadForm());
    return page(template, words);
  }

  /** A step looked at again by its address: its file is gone, so it begins anew. */
  @Get(['columns', 'preview'])
  beginAgain(): Reply {
    return seeOther(importUrl);
  }

  @Post('columns')
  columns(@Req() request: FastifyRequest, @Hand() visit: Visit): Promise<Reply> {
    return submit(
      {},
      async () => {
        const { text, headed } = await readUpload(request, CLIENT_LIST);
        const table = tableOf(text, headed);
        const { identity } = await studioBook.the(this.read);
        const house = {
          unit: identity.lengthUnit,
          today: todayIn(this.clock, identity.zone),
          hand: visit.who.name,
          headed,
        };
        const known = await dimensionBook.all(this.read);
        const form = columnsForm(table, known, house);
        const { template, words } = columnsPage(table, known, packed(text), form);
        return page(template, words);
      },
      (form) => uploadPage({ ...form, values: { headed: 'yes' } }),
    );
  }

  @Post('preview')
  preview(@Body() body: unknown): Promise<Reply> {
    const typed = typedOf(body);
    const carried = carriedIn(body);
    return submit(
      typed,
      async () => {
        const words = wordsOf(typed);
        const rows = await planImport(this.read, this.clock, unpacked(carried), words);
        const form = freshForm(importUrl, { twins: words.twins });
        const { template, words: said } = previewPage(rows, words, carried, typed, form);
        return page(template, said);
      },
      async (form) => {
        const text = carried ? unpacked(carried) : '';
        if (text === '') return uploadPage({ ...form, values: { headed: 'yes' } });
        const known = await dimensionBook.all(this.read);
        return columnsPage(tableOf(text, typed.headed === 'yes'), known, carried, form);
      },
    );
  }

  @Post()
  bring(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const carried = carriedIn(body);
    return submit(
      typed,
      async () => {
        const words = wordsOf(typed);
        const { act } = await bringClients(this.unit, visit, this.clock, unpacked(carried), words);
        return seeOther('/clients', act);
      },
      async (form) => {
        const words = wordsOf({ ...typed, takenOn: '' });
        const rows = await planImport(this.read, this.clock, unpacked(carried), words);
        return previewPage(rows, words, carried, typed, form);
      },
    );
  }
}
