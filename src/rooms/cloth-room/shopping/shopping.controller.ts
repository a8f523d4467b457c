import { Controller, Get, Param, Post } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedShoppingList } from '../../../printing/papers/shopping-sheet.js';
import { Templates } from '../../../printing/templates/templates.js';
import { acceptedLines } from '../../../storage/books/cloth-room/accepted-lines.js';
import { shoppingBook } from '../../../storage/books/cloth-room/shopping-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { answer, file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { shoppingPage, shoppingSheet } from './shopping.page.js';
import { shoppingList } from './shopping-list.js';

/** What is to be bought for accepted garments. */
@Controller()
export class ShoppingController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get('cloth-room/shopping-list')
  async show(): Promise<Reply> {
    const { groups, identity } = await this.list();
    return page('cloth-room/shopping/shopping-list', shoppingPage(groups, identity));
  }

  @Get('cloth-room/shopping-list.pdf')
  async pdf(): Promise<Reply> {
    const { groups, identity } = await this.list();
    const today = todayIn(this.clock, identity.zone);
    const { html, sheet } = printedShoppingList(this.templates, shoppingSheet(groups, identity, today));
    const bytes = await this.printer.print(html, sheet);
    return file(bytes, 'application/pdf', `shopping-list-${today}.pdf`, true);
  }

  @Post('cloth-room/shopping-list/:line/tick')
  tick(@Param('line') line: string, @Hand() visit: Visit): Promise<Reply> {
    return this.change(visit, line, true);
  }

  @Post('cloth-room/shopping-list/:line/untick')
  untick(@Param('line') line: string, @Hand() visit: Visit): Promise<Reply> {
    return this.change(visit, line, false);
  }

  @Get('api/shopping-list')
  async sent(): Promise<Reply> {
    return answer({ suppliers: (await this.list()).groups });
  }

  private async list() {
    const { identity } = await studioBook.the(this.read);
    return { identity, groups: await shoppingList(this.read, identity.currency) };
  }

  private async change(visit: Visit, lineId: string, isBought: boolean): Promise<Reply> {
    const { act } = await this.unit.write(visit, async (writing) => {
      const line = (await acceptedLines(writing)).find(({ id }) => id === lineId);
      if (!line) throw new NotFound('line on the shopping list');
      await (isBought ? shoppingBook.tick(writing, lineId) : shoppingBook.untick(writing, lineId));
      writing.says(
        `${isBought ? 'Ticked' : 'Unticked'} ${line.name} on the shopping list`,
        `commission/${line.commissionId}/garment/${line.garmentId}`,
      );
    });
    return seeOther('/cloth-room/shopping-list', act);
  }
}
