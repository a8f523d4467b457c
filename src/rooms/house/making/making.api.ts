import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { z } from 'zod';
import { makingBook } from '../../../storage/books/making-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addOperation, addType, changeOperation, changeType, removeOperation } from './change-making.js';
import { OperationSent, TypeSaid } from './operation.form.js';

const TypeSent = TypeSaid.extend({ measuringList: z.array(z.string().max(100)).max(200) }).partial();

/** Garment types and known operations for programs. */
@Controller('api/house')
export class MakingApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('garment-types')
  async types(): Promise<Reply> {
    return answer({ items: await makingBook.types(this.read) });
  }

  @Post('garment-types')
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addType(this.unit, visit, parse(TypeSaid, body));
    return created(`/api/house/garment-types/${value}`, await makingBook.type(this.read, value));
  }

  @Get('garment-types/:id')
  async type(@Param('id') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const operations = await makingBook.operations(this.read, id);
    return answer({ ...type, operations }, 200, etagOf(type.version));
  }

  @Put('garment-types/:id')
  async change(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.type(id),
      () => changeType(this.unit, visit, id, parse(TypeSent, body), versionOfIfMatch(match)),
    );
    return this.type(id);
  }

  @Post('garment-types/:id/operations')
  async addOperation(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addOperation(this.unit, visit, id, parse(OperationSent, body));
    return created(`/api/house/operations/${value}`, await makingBook.operation(this.read, value));
  }

  @Get('operations/:id')
  async operation(@Param('id') id: string): Promise<Reply> {
    const known = await makingBook.operation(this.read, id);
    return answer(known, 200, etagOf(known.version));
  }

  @Put('operations/:id')
  async changeOperation(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.operation(id),
      () => changeOperation(this.unit, visit, id, parse(OperationSent, body), versionOfIfMatch(match)),
    );
    return this.operation(id);
  }

  @Delete('operations/:id')
  async removeOperation(
    @Param('id') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.operation(id),
      () => removeOperation(this.unit, visit, id, versionOfIfMatch(match)),
    );
    return answer({ removed: id });
  }
}
