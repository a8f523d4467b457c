import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { clientBook } from '../../../storage/books/client-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { Clock } from '../../../storage/clock.js';
import { whatIsHeld } from '../../../storage/holding/what-is-held.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { eraseForGood } from './erase.js';
import { ErasureFields } from './held.form.js';
import { erasurePage, heldPage, heldUrl } from './held.page.js';
import { heldAsCsv, heldInJson } from './held-files.js';
import { whyNotErased } from './why-not-erased.js';

/** What is held on one client: to look at, to hand over, to erase. */
@Controller('clients/:client')
export class HeldController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('held')
  async held(@Param('client') id: string): Promise<Reply> {
    const client = await clientBook.one(this.read, id);
    return page(
      'clients/held/held',
      heldPage(client, await whatIsHeld(this.read, id), await keepingBook.of(this.read, id)),
    );
  }

  @Get('export.csv')
  async asTable(@Param('client') id: string): Promise<Reply> {
    const { code } = await clientBook.one(this.read, id);
    return file(heldAsCsv(await whatIsHeld(this.read, id)), 'text/csv; charset=utf-8', `${code}.csv`);
  }

  @Get('export.json')
  async forPrograms(@Param('client') id: string): Promise<Reply> {
    const { code } = await clientBook.one(this.read, id);
    const text = JSON.stringify(heldInJson(code, await whatIsHeld(this.read, id)), null, 2);
    return file(text, 'application/json', `${code}.json`);
  }

  @Get('erasure')
  async ask(@Param('client') id: string): Promise<Reply> {
    const { template, words } = await this.asked(id, freshForm(''));
    return page(template, words);
  }

  @Post('erasure')
  erase(@Param('client') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(ErasureFields, typed);
        const { act } = await eraseForGood(this.unit, this.clock, visit, id, said);
        return seeOther(heldUrl(id), act);
      },
      (form) => this.asked(id, form),
    );
  }

  private async asked(id: string, form: ReturnType<typeof freshForm>) {
    const patterns = await patternBook.ofClient(this.read, id);
    return erasurePage(
      await clientBook.one(this.read, id),
      await whyNotErased(this.read, id),
      patterns.map(({ number }) => number),
      form,
    );
  }
}
