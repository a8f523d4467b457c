import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { withoutDrafting } from '../../../domain/fitting/pattern.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { line } from '../../../web/fields/fields.js';
import { submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { cutFrom, cutFromNone, hangUpPattern, sameAgain } from './cut-from.js';
import { garmentPatternPage } from './garment-pattern.page.js';
import { CutFromForm, HungFields } from './pattern.form.js';

const AgainForm = z.strictObject({ from: line('Which garment?', 60) });

/** The pattern a garment is cut from. */
@Controller('commissions/:commission/garments/:garment/pattern')
export class GarmentPatternController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async show(@Param('commission') commission: string, @Param('garment') id: string): Promise<Reply> {
    const { template, words } = await this.drawn(commission, id);
    return page(template, words);
  }

  @Post('hang-up')
  async hangUp(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const { act } = await hangUpPattern(this.unit, visit, id, parseForm(HungFields, typed));
        return seeOther(garmentUrl(commission, id), act);
      },
      (form) => this.refused(commission, id, 'hang', form),
    );
  }

  @Post('cut-from')
  async cut(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const { pattern, leaveOutDrafting } = parseForm(CutFromForm, typed);
        const { act } = await cutFrom(this.unit, visit, id, pattern, leaveOutDrafting);
        return seeOther(garmentUrl(commission, id), act);
      },
      (form) => this.refused(commission, id, 'cut', form),
    );
  }

  @Post('same-again')
  async again(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, id);
    const { from } = parseForm(AgainForm, typedOf(body));
    const { act } = await sameAgain(this.unit, visit, id, from);
    return seeOther(`${garmentUrl(commission, id)}#plan`, act);
  }

  @Post('none')
  async none(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, id);
    const { act } = await cutFromNone(this.unit, visit, id);
    return seeOther(garmentUrl(commission, id), act);
  }

  /** The page with one of its two forms come back; the summary on top leads to that form's fields. */
  private async refused(commission: string, id: string, which: 'cut' | 'hang', form: FormModel) {
    const { template, words } = await this.drawn(commission, id, { [which]: form });
    return { template, words: { ...words, form: words[`${which}Form` as 'form'] } };
  }

  private async drawn(
    commissionId: string,
    id: string,
    forms: { readonly cut?: FormModel; readonly hang?: FormModel } = {},
  ) {
    const garment = await garmentIn(this.read, commissionId, id);
    return garmentPatternPage(
      {
        commission: await commissionBook.one(this.read, commissionId),
        garment,
        pattern: await patternBook.ofGarment(this.read, id),
        patterns: await patternBook.ofClient(this.read, garment.wearerId),
        drafting: withoutDrafting(await planBook.of(this.read, id)).left,
      },
      forms,
    );
  }
}
