import { Body, Controller, Get, Headers, Param, Put } from '@nestjs/common';
import { makingBook } from '../../../storage/books/making-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { changeMeasuringList } from './change-measuring-list.js';
import { MeasuringListFields } from './measuring-list.form.js';

/** Measuring lists for programs; the names in `list` may be short names or words. */
@Controller('api/measuring-lists')
export class MeasuringListsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get(':type')
  async one(@Param('type') id: string): Promise<Reply> {
    const { version, measuringList } = await makingBook.type(this.read, id);
    return answer({ garmentType: id, version, list: measuringList }, 200, etagOf(version));
  }

  @Put(':type')
  async change(
    @Param('type') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const words = parse(MeasuringListFields, body);
    const { value } = await presentAs(
      () => this.one(id),
      () => changeMeasuringList(this.unit, visit, id, words, versionOfIfMatch(match)),
    );
    return answer(
      { garmentType: id, version: value.version, list: value.measuringList },
      200,
      etagOf(value.version),
    );
  }
}
