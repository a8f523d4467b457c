import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit, Writing } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, etagOfAll, tagOfIfMatch, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addLine } from './add-line.js';
import { changePlan, putPlan } from './change-plan.js';
import { changeOneOperation, operationOf } from './operation/change-operation.js';
import { LineSent, OperationSent, operationSent, PlanSent } from './operation/operation-sent.js';

/** A garment's making plan for programs. */
@Controller('api/garments/:garment/plan')
export class PlanApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async plan(@Param('garment') garment: string): Promise<Reply> {
    await garmentBook.one(this.read, garment);
    const items = await planBook.of(this.read, garment);
    return answer({ items }, 200, etagOfAll(items));
  }

  /** A whole plan in place of the present one, in its order; operations named by `id` are kept and changed. */
  @Put()
  async put(
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { items } = parse(PlanSent, body);
    const make = async (writing: Writing, present: MakingPlan) => {
      const { name } = await garmentBook.one(writing, garment);
      const kept = new Map(present.map((one) => [one.id, one]));
      const plan = items.map(({ id, ...said }, place) =>
        operationSent(said, kept.get(id ?? ''), () => writing.newId(), `items.${place}`),
      );
      return { plan, says: `Put a new plan in place for the ${name}` };
    };
    await presentAs(
      () => this.plan(garment),
      () => putPlan(this.unit, visit, garment, make, tagOfIfMatch(match)),
    );
    return this.plan(garment);
  }

  /** One operation more: whole, or by a line such as `inside pocket 2`. */
  @Post()
  async add(@Param('garment') garment: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const before = new Set((await planBook.of(this.read, garment)).map(({ id }) => id));
    const said = parse(LineSent, body);
    const { value } = await addLine(this.unit, visit, garment, {
      line: said.line,
      minutes: said.minutes === undefined ? '' : `${said.minutes} min`,
      stage: said.stage ?? '',
      mode: said.mode ?? '',
      isNew: said.isNew ? 'yes' : '',
    });
    const added = value.find(({ id }) => !before.has(id))!;
    return created(
      `/api/garments/${garment}/plan/${added.id}`,
      await operationOf(this.read, garment, added.id),
    );
  }

  @Get(':operation')
  async one(@Param('garment') garment: string, @Param('operation') id: string): Promise<Reply> {
    const one = await operationOf(this.read, garment, id);
    return answer(one, 200, etagOf(one.version));
  }

  @Put(':operation')
  async change(
    @Param('garment') garment: string,
    @Param('operation') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(OperationSent, body);
    await presentAs(
      () => this.one(garment, id),
      () =>
        changeOneOperation(
          this.unit,
          visit,
          garment,
          id,
          (present) => operationSent(said, present, () => id),
          versionOfIfMatch(match),
        ),
    );
    return this.one(garment, id);
  }

  @Delete(':operation')
  async takeOut(
    @Param('garment') garment: string,
    @Param('operation') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const one = await operationOf(this.read, garment, id);
    await presentAs(
      () => this.one(garment, id),
      () => changePlan(this.unit, visit, garment, [], { is: 'out', id }, versionOfIfMatch(match)),
    );
    return answer(one);
  }
}
