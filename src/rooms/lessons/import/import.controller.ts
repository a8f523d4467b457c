import { Body, Controller, Get, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { packed, unpacked } from '../../../web/tables/carried.js';
import { readTable } from '../../../web/tables/read-table.js';
import { readUpload } from '../../../web/tables/read-upload.js';
import { Hand } from '../../../web/visit.js';
import { bringGarments, planImport } from './bring-garments.js';
import { GARMENT_LIST, readImport } from './import.form.js';
import { columnsForm, columnsPage, importUrl, previewPage, uploadForm, uploadPage } from './import.page.js';

/** The packed file, whole: it is longer than anything a person types. */
const carriedIn = (body: unknown): string => {
  const { carried } = (body ?? {}) as Record<string, unknown>;
  return typeof carried === 'string' ? carried : '';
};

/** Bringing in garments made before, step by step; nothing is kept before the last. */
@Controller('lessons/import')
export class LessonsImportController {
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
  columns(@Req() request: FastifyRequest): Promise<Reply> {
    return submit(
      {},
      async () => {
        const { text, headed } = await readUpload(request, GARMENT_LIST);
        const table = readTable(text, headed, GARMENT_LIST);
        const { template, words } = columnsPage(table, packed(text), columnsForm(table, headed));
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
        const { twins } = readImport(typed);
        const { template, words } = await this.drawn(typed, carried, freshForm(importUrl, { twins }));
        return page(template, words);
      },
      async (form) => {
        const text = carried ? unpacked(carried) : '';
        if (text === '') return uploadPage({ ...form, values: { headed: 'yes' } });
        return columnsPage(readTable(text, typed.headed === 'yes', GARMENT_LIST), carried, form);
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
        const words = readImport(typed);
        const { act } = await bringGarments(this.unit, visit, this.clock, unpacked(carried), words);
        return seeOther('/lessons', act);
      },
      (form) => this.drawn(typed, carried, form),
    );
  }

  private async drawn(typed: Typed, carried: string, form: FormModel) {
    const words = readImport(typed);
    const planned = await planImport(this.read, this.clock, unpacked(carried), words);
    const types = await makingBook.types(this.read);
    const operations = await makingBook.operations(this.read);
    const { identity } = await studioBook.the(this.read);
    return previewPage({ planned, words, types, operations, carried, typed, locale: identity.locale }, form);
  }
}
