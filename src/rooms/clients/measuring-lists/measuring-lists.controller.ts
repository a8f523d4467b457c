import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { isConfirmed, parse } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { changeMeasuringList } from './change-measuring-list.js';
import { MeasuringListFields } from './measuring-list.form.js';
import {
  listForm,
  listInWords,
  listsUrl,
  measuringListPage,
  measuringListsPage,
} from './measuring-list.page.js';

/** The lists of what is measured for each type of garment. */
@Controller('clients/measuring-lists')
export class MeasuringListsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async all(): Promise<Reply> {
    return page('clients/measuring-lists', measuringListsPage(await makingBook.types(this.read)));
  }

  @Get(':type')
  async one(@Param('type') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const known = await dimensionBook.all(this.read);
    const { template, words } = measuringListPage(type, known, listForm(type, known));
    return page(template, words);
  }

  @Post(':type')
  change(@Param('type') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const lines = (typed.list ?? '').split('\n');
        const words = parse(MeasuringListFields, { list: lines, isNew: isConfirmed(typed, 'confirm.list') });
        const { act } = await changeMeasuringList(this.unit, visit, id, words, versionSeen(typed));
        return seeOther(listsUrl, act);
      },
      async (form) => {
        const errors = form.errors.map(({ field, text }) => ({
          field: field.replace(/^list\..*/, 'list'),
          text,
        }));
        const known = await dimensionBook.all(this.read);
        return measuringListPage(await makingBook.type(this.read, id), known, { ...form, errors });
      },
      async (present) => ({
        list: listInWords(
          String(present.measuring_list).split(' ').filter(Boolean),
          await dimensionBook.all(this.read),
        ),
      }),
    );
  }
}
