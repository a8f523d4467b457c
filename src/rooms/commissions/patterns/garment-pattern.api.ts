import { Body, Controller, Delete, Get, Param, Post, Put } from '@nestjs/common';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { cutFrom, cutFromNone, hangUpPattern } from './cut-from.js';
import { CutFromSent, HungFields } from './pattern.form.js';

const HUNG = { hung: { name: 'Jacket block', hook: 'Hook 12', notes: '' } };
const CUT = { cut: { patternId: '0190c0de-0000-7000-8000-000000000001', leaveOutDrafting: true } };

/** The pattern of a garment for programs. */
@Controller('api/garments/:garment/pattern')
export class GarmentPatternApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  @Describe({ summary: 'The pattern a garment is cut from; `null` where it is from none' })
  async one(@Param('garment') id: string): Promise<Reply> {
    await garmentBook.one(this.read, id);
    return answer({ pattern: (await patternBook.ofGarment(this.read, id)) ?? null });
  }

  @Post()
  @Describe({ summary: 'Hangs up the pattern drafted for a garment', examples: HUNG })
  async hangUp(
    @Param('garment') id: string,
    @Body({ schema: HungFields }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await hangUpPattern(this.unit, visit, id, parse(HungFields, body));
    return created(`/api/patterns/${value.id}`, value);
  }

  @Put()
  @Describe({
    summary: 'Cuts a garment from a pattern that hangs there',
    description: 'Answers with the draft operations that were left out of its plan.',
    examples: CUT,
  })
  async cut(
    @Param('garment') id: string,
    @Body({ schema: CutFromSent }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { patternId, leaveOutDrafting } = parse(CutFromSent, body);
    const { value } = await cutFrom(this.unit, visit, id, patternId, leaveOutDrafting);
    return answer({ pattern: value.pattern, leftOut: value.left });
  }

  @Delete()
  @Describe({ summary: 'The garment is cut from no kept pattern' })
  async none(@Param('garment') id: string, @Hand() visit: Visit): Promise<Reply> {
    await cutFromNone(this.unit, visit, id);
    return answer({ pattern: null });
  }
}
