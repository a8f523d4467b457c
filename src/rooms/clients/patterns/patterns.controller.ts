import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { FormModel, Link } from '../../../printing/templates/page-model.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { correctPattern } from './correct-pattern.js';
import { PatternFields, typedPattern } from './pattern.form.js';
import { patternPage, patternsPage, patternsUrl } from './patterns.page.js';

/** A client's patterns on their hooks. */
@Controller('clients/:client/patterns')
export class PatternsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async all(@Param('client') id: string): Promise<Reply> {
    const client = await clientBook.one(this.read, id);
    const types = new Map((await makingBook.types(this.read)).map((type) => [type.id, type.name]));
    return page(
      'clients/patterns/list',
      patternsPage(client, await patternBook.ofClient(this.read, id), types),
    );
  }

  @Get(':pattern')
  async one(@Param('client') client: string, @Param('pattern') id: string): Promise<Reply> {
    const pattern = await this.pattern(client, id);
    const { template, words } = await this.drawn(
      pattern,
      freshForm('', typedPattern(pattern), pattern.version),
    );
    return page(template, words);
  }

  @Post(':pattern')
  async correct(
    @Param('client') client: string,
    @Param('pattern') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await this.pattern(client, id);
    return submit(
      typed,
      async () => {
        const said = parseForm(PatternFields, typed);
        const { act } = await correctPattern(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(patternsUrl(client), act);
      },
      async (form) => this.drawn(await this.pattern(client, id), form),
      async () => typedPattern(await this.pattern(client, id)),
    );
  }

  private async pattern(client: string, id: string): Promise<Pattern> {
    const pattern = await patternBook.one(this.read, id);
    if (pattern.clientId !== client) throw new NotFound('pattern of this client');
    return pattern;
  }

  private async drawn(pattern: Pattern, form: FormModel) {
    return patternPage(
      await clientBook.one(this.read, pattern.clientId),
      pattern,
      form,
      await this.from(pattern),
    );
  }

  /** The garment it was drafted for, while that is there. */
  private async from({ fromGarmentId }: Pattern): Promise<Link | undefined> {
    if (!fromGarmentId) return undefined;
    try {
      const garment = await garmentBook.one(this.read, fromGarmentId);
      return { text: garment.name, href: `/commissions/${garment.commissionId}/garments/${garment.id}` };
    } catch (gone) {
      if (gone instanceof NotFound) return undefined;
      throw gone;
    }
  }
}
