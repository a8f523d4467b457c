import { Body, Controller, Get, Headers, Param, Put } from '@nestjs/common';
import { clientBook } from '../../../storage/books/client-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { correctPattern } from './correct-pattern.js';
import { PatternFields } from './pattern.form.js';

const CORRECTED = {
  corrected: {
    name: 'Jacket block',
    hook: 'Hook 12',
    lastCorrection: 'Left shoulder raised by a quarter of an inch',
    correctedOn: '2026-03-12',
    notes: '',
  },
};

/** Patterns for programs. */
@Controller('api')
export class PatternsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('clients/:client/patterns')
  @Describe({ summary: 'The patterns of a client on their hooks, newest first' })
  async list(@Param('client') client: string): Promise<Reply> {
    await clientBook.one(this.read, client);
    return answer({ items: await patternBook.ofClient(this.read, client) });
  }

  @Get('patterns/:pattern')
  @Describe({ summary: 'One pattern' })
  async one(@Param('pattern') id: string): Promise<Reply> {
    const pattern = await patternBook.one(this.read, id);
    return answer(pattern, 200, etagOf(pattern.version));
  }

  @Put('patterns/:pattern')
  @Describe({ summary: 'Corrects what is known of a pattern', examples: CORRECTED })
  async correct(
    @Param('pattern') id: string,
    @Body({ schema: PatternFields }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(PatternFields, body);
    await presentAs(
      () => this.one(id),
      () => correctPattern(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return this.one(id);
  }
}
