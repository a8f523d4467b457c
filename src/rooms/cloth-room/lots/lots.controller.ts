import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { clientBook } from '../../../storage/books/client-book.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { lotUrl } from '../cloth-room.page.js';
import { typedFields } from '../stock-fields.js';
import { remarksPage, stocktakePage } from './bring-in.page.js';
import { dismissCaution, measureAgain, remarkOnLot, sendAway } from './change-lot.js';
import { LeavesFields, MeasuredForm, RemarkFields, typedRemarks } from './lot.form.js';
import { type LotAgain, lotPage } from './lot.page.js';

/** The pieces on the shelves. */
@Controller('cloth-room')
export class LotsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('stocktake')
  async stocktake(@Query('material') materialId = ''): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const lots = await lotBook.withSomethingLeft(this.read);
    const asked = materialId ? lots.filter((lot) => lot.materialId === materialId) : lots;
    return page(
      'cloth-room/lots/stocktake',
      stocktakePage(asked, await materialBook.all(this.read), identity),
    );
  }

  @Get('lots/:id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = await this.drawn(id);
    return page(template, words);
  }

  @Get('lots/:id/correct')
  async remarks(@Param('id') id: string): Promise<Reply> {
    const lot = await lotBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    const form = freshForm('', typedRemarks(lot, identity.locale), lot.version);
    const material = await materialBook.one(this.read, lot.materialId);
    const { template, words } = remarksPage(form, lot, material, identity.currency);
    return page(template, words);
  }

  @Post('lots/:id')
  async remark(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity, fields } = await this.house();
    const lot = await lotBook.one(this.read, id);
    const material = await materialBook.one(this.read, lot.materialId);
    return submit(
      typed,
      async () => {
        const said = parseForm(RemarkFields(fields), typed);
        const { act } = await remarkOnLot(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(lotUrl(id), act);
      },
      (form) => remarksPage(form, lot, material, identity.currency),
      async () => typedRemarks(await lotBook.one(this.read, id), identity.locale),
    );
  }

  @Post('lots/:id/measured')
  async measured(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity, today } = await this.house();
    const { unit } = await this.materialOf(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(MeasuredForm(identity, unit, today), typed);
        return seeOther(lotUrl(id), (await measureAgain(this.unit, visit, id, said)).act);
      },
      (form) => this.drawn(id, { which: 'measured', form }),
    );
  }

  @Post('lots/:id/away')
  async away(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { fields, today } = await this.house();
    const { unit } = await this.materialOf(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(LeavesFields(fields, unit, today), typed);
        return seeOther(lotUrl(id), (await sendAway(this.unit, visit, id, said)).act);
      },
      (form) => this.drawn(id, { which: 'away', form }),
    );
  }

  @Post('lots/:id/cautions/:caution')
  async dismiss(
    @Param('id') id: string,
    @Param('caution') caution: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    return seeOther(lotUrl(id), (await dismissCaution(this.unit, visit, id, caution)).act);
  }

  private async house() {
    const { identity } = await studioBook.the(this.read);
    return { identity, fields: typedFields(identity), today: todayIn(this.clock, identity.zone) };
  }

  private async materialOf(lotId: string) {
    return materialBook.one(this.read, (await lotBook.one(this.read, lotId)).materialId);
  }

  private async drawn(id: string, again?: LotAgain) {
    const { identity, today } = await this.house();
    const lot = await lotBook.one(this.read, id);
    const material = await materialBook.one(this.read, lot.materialId);
    const owner = lot.ownerId ? await clientBook.one(this.read, lot.ownerId) : undefined;
    const all = await entryBook.ofMaterial(this.read, lot.materialId, 500);
    const entries = all.filter(({ parts }) => parts.some(({ lotId }) => lotId === id)).slice(0, 50);
    return lotPage({ lot, material, owner, entries, today, identity }, again);
  }
}
