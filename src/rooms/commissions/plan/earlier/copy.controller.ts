import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { line, oneOf } from '../../../../web/fields/fields.js';
import { freshForm, submit } from '../../../../web/forms/form.js';
import { parseForm } from '../../../../web/forms/parse.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { commissionCrumbs, garmentUrl } from '../../commission.page.js';
import { garmentIn } from '../../garments/change-garment.js';
import { copyPage, earlierGarments } from './copy.page.js';
import { followProposal, proposalFor, takeOverPlan } from './copy-plan.js';
import { proposalPage, proposalTyped } from './proposal.page.js';

const TakeOver = z.strictObject({
  from: line('Which garment?', 60),
  how: oneOf(['instead', 'after']),
});

/** A plan taken over from an earlier garment, and what the make proposes. */
@Controller('commissions/:commission/garments/:garment/plan')
export class CopyController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('copy')
  async choose(
    @Param('commission') commissionId: string,
    @Param('garment') id: string,
    @Query('q') asked = '',
  ): Promise<Reply> {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const found = await earlierGarments(this.read, garment, asked);
    return page('commissions/plan/copy', copyPage(commission, garment, asked, found));
  }

  @Post('copy')
  async copy(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, id);
    const { from, how } = parseForm(TakeOver, typedOf(body));
    const { act } = await takeOverPlan(this.unit, visit, id, from, how);
    return seeOther(`${garmentUrl(commission, id)}#plan`, act);
  }

  @Get('proposal')
  async proposal(@Param('commission') commissionId: string, @Param('garment') id: string): Promise<Reply> {
    const garment = await garmentIn(this.read, commissionId, id);
    const proposal = await proposalFor(this.read, garment);
    const form = freshForm('', proposalTyped(proposal));
    const crumbs = commissionCrumbs(await commissionBook.one(this.read, commissionId));
    const { template, words } = proposalPage(form, garment, proposal, crumbs);
    return page(template, words);
  }

  @Post('proposal')
  async follow(
    @Param('commission') commissionId: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const garment = await garmentIn(this.read, commissionId, id);
    const ticked = (list: string): string[] =>
      Object.entries(typed).flatMap(([name, said]) =>
        name.startsWith(`${list}.`) && said === 'yes' ? [name.slice(list.length + 1)] : [],
      );
    return submit(
      typed,
      async () => {
        const { act } = await followProposal(this.unit, visit, id, {
          more: ticked('more'),
          out: ticked('out'),
        });
        return seeOther(`${garmentUrl(commissionId, id)}#plan`, act);
      },
      async (form) => {
        const crumbs = commissionCrumbs(await commissionBook.one(this.read, commissionId));
        return proposalPage(form, garment, await proposalFor(this.read, garment), crumbs);
      },
    );
  }
}
