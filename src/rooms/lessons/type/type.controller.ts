import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { pastGarmentBook } from '../../../storage/books/past-garment-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { readGuess } from '../totals.form.js';
import { guessHours } from '../write-down.js';
import { typePage } from './type.page.js';
import { typeTold } from './type-told.js';

const urlOf = (id: string): string => `/lessons/garment-types/${id}`;

/** What garments of one type really take. */
@Controller('lessons')
export class TypeController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('garment-types/:id')
  async type(@Param('id') id: string): Promise<Reply> {
    const told = await typeTold(this.read, id);
    const own = told.lesson?.belief?.from === 'ours' ? told.lesson.belief.hours.toFixed() : '';
    const { template, words } = typePage(told, freshForm(urlOf(id), { hours: own }, told.guessVersion));
    return page(template, words);
  }

  /** Where the page stood before. */
  @Get('types/:id')
  before(@Param('id') id: string): Reply {
    return seeOther(urlOf(encodeURIComponent(id)));
  }

  @Post('garment-types/:id')
  guess(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await guessHours(this.unit, visit, id, readGuess(typed), versionSeen(typed));
        return seeOther(urlOf(id), act);
      },
      async (form) => typePage(await typeTold(this.read, id), form),
      async () => ({ hours: (await pastGarmentBook.guessOf(this.read, id))?.hours.toFixed() ?? '' }),
    );
  }
}
