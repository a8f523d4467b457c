import { Body, Controller, Get, Post } from '@nestjs/common';
import { photoBook } from '../../storage/books/fitting/photo-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { RuleFields } from './photo.form.js';
import { rulePage, typedRule } from './photos.page.js';

/** What the house has settled about photographs: children, and how long they are kept. */
@Controller('house/photographs')
export class PhotoRuleController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async form(): Promise<Reply> {
    const rule = await photoBook.rule(this.read);
    const { template, words } = rulePage(freshForm('', typedRule(rule), rule.version));
    return page(template, words);
  }

  @Post()
  settle(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const rule = parseForm(RuleFields, typed);
        const { act } = await this.unit.write(visit, async (writing) => {
          await photoBook.settle(writing, rule, versionSeen(typed));
          writing.says('Settled how photographs are kept', 'house');
        });
        return seeOther('/house', act);
      },
      rulePage,
      async () => typedRule(await photoBook.rule(this.read)),
    );
  }
}
