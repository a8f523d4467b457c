import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { clientBook } from '../../../storage/books/client-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { lotUrl } from '../cloth-room.page.js';
import { typedFields } from '../stock-fields.js';
import { bringInStash, takeIntoCustody } from './bring-in.js';
import { custodyPage, stashPage } from './bring-in.page.js';
import { CustodyFields, StashFields } from './lot.form.js';

const MOST_CLIENTS = 1000;

/** What comes onto the shelf without being bought: stash, and clients' own cloth. */
@Controller('cloth-room/materials/:id')
export class BringInController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('stash')
  async stashForm(@Param('id') id: string): Promise<Reply> {
    const { material, identity, today } = await this.house(id);
    const values = { on: today, costIs: 'nil', age: 'unknown', chargeAt: 'replacement' };
    const { template, words } = stashPage(freshForm('', values), material, identity);
    return page(template, words);
  }

  @Post('stash')
  async stash(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { material, identity, today } = await this.house(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(StashFields(typedFields(identity), material.unit, today), typed);
        const { value, act } = await bringInStash(this.unit, visit, id, said);
        return seeOther(lotUrl(value.id), act);
      },
      (form) => stashPage(form, material, identity),
    );
  }

  @Get('custody')
  async custodyForm(@Param('id') id: string): Promise<Reply> {
    const { material, today } = await this.house(id);
    const form = freshForm('', { on: today, age: 'unknown' });
    const { template, words } = custodyPage(form, material, await this.clients());
    return page(template, words);
  }

  @Post('custody')
  async custody(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { material, identity, today } = await this.house(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(CustodyFields(typedFields(identity), material.unit, today), typed);
        const { value, act } = await takeIntoCustody(this.unit, visit, id, said);
        return seeOther(lotUrl(value.id), act);
      },
      async (form) => custodyPage(form, material, await this.clients()),
    );
  }

  private async clients() {
    return (await clientBook.find(this.read, '', MOST_CLIENTS)).items;
  }

  private async house(id: string) {
    const { identity } = await studioBook.the(this.read);
    const material = await materialBook.one(this.read, id);
    return { material, identity, today: todayIn(this.clock, identity.zone) };
  }
}
