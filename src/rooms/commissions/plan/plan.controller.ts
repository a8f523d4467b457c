import { Body, Controller, Headers, Param, Post } from '@nestjs/common';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { part, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { drawJobSheet, JOB_FRAME } from '../garments/draw-job-sheet.js';
import { sumPanelOf } from '../sum/sum.page.js';
import { pricingOf } from '../sum/sum-of.js';
import { addLine, readLine } from './add-line.js';
import { changePlan, type PlanAct, planActOf } from './change-plan.js';
import { planFormAgain } from './plan.page.js';
import { editsOf, withEdits } from './plan-edits.js';

/** The making plan of a job sheet: written in place, put in order, added to. */
@Controller('commissions/:commission/garments/:garment/plan')
export class PlanController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Post()
  async change(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Headers('turbo-frame') frame: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, id);
    const pressed = planActOf(typed.act);
    return submit(
      typed,
      async () => {
        const { act } = await changePlan(this.unit, visit, id, editsOf(typed), pressed);
        return seeOther(`${garmentUrl(commission, id)}${backTo(pressed)}`, act);
      },
      (form) =>
        drawJobSheet(this.read, this.clock, commission, id, {
          plan: (fresh) => planFormAgain(fresh, form, form.version !== undefined),
          isInFrame: frame === JOB_FRAME,
        }),
      (present) => (present.texts ?? {}) as Record<string, string>,
    );
  }

  /** The sum of the plan as it is being typed; nothing is kept. */
  @Post('sum')
  async sum(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, id);
    const planned = await garmentBook.planned(this.read, id);
    const plan = withEdits(planned.plan, editsOf(typedOf(body)), true);
    const pricing = await pricingOf(this.read, this.clock, commission);
    return part('commissions/sum', await sumPanelOf(pricing, { ...planned, plan }));
  }

  @Post('add')
  async add(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Headers('turbo-frame') frame: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const garment = await garmentIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const { act } = await addLine(this.unit, visit, id, typed);
        return seeOther(`${garmentUrl(commission, id)}?at=add`, act);
      },
      async (form) =>
        drawJobSheet(this.read, this.clock, commission, id, {
          add: { form, read: await readLine(this.read, garment, typed.line ?? '', typed.isNew === 'yes') },
          isInFrame: frame === JOB_FRAME,
        }),
    );
  }
}

/** Where the page is looked at again: the same button after a move, so that it can be pressed again. */
const backTo = (act: PlanAct): string =>
  act.is === 'up' || act.is === 'down' ? `?at=${act.is}:${act.id}` : '#plan';
