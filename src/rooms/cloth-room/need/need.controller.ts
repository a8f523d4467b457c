import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { threadBook } from '../../../storage/books/cloth-room/thread-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { clothNeed, NeedFields } from './cloth-need.js';
import { needPage } from './need.page.js';
import { RatioFields, readThreadNeed, threadPage } from './thread.page.js';

/** How much cloth, how much thread: questions that change nothing, and the ratios they rest on. */
@Controller('cloth-room')
export class NeedController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('need')
  async need(@Query() query: unknown): Promise<Reply> {
    const typed = typedOf(query);
    const { identity } = await studioBook.the(this.read);
    const usual = { wasteOf: 'net', stacked: '0' };
    if (Object.keys(typed).length === 0) {
      const { template, words } = needPage(freshForm('', usual), identity);
      return page(template, words);
    }
    return submit(
      typed,
      async () => {
        const said = parseForm(NeedFields(identity), typed);
        const answered = { need: clothNeed(said, identity.clothUnit), said };
        const { template, words } = needPage(freshForm('', { ...usual, ...typed }), identity, answered);
        return page(template, words);
      },
      (form) => needPage(form, identity),
    );
  }

  @Get('thread')
  async thread(@Query() query: unknown): Promise<Reply> {
    const typed = typedOf(query);
    const { identity } = await studioBook.the(this.read);
    const ratios = await threadBook.all(this.read);
    const ratio = freshForm('');
    if (Object.keys(typed).length === 0) {
      const { template, words } = threadPage(
        { seams: freshForm('', { waste: '15' }), ratio },
        ratios,
        identity,
      );
      return page(template, words);
    }
    return submit(
      typed,
      async () => {
        const answered = readThreadNeed(typed, identity, ratios);
        const { template, words } = threadPage(
          { seams: freshForm('', { ...typed }), ratio },
          ratios,
          identity,
          answered,
        );
        return page(template, words);
      },
      (form) => threadPage({ seams: form, ratio, refused: 'seams' }, ratios, identity),
    );
  }

  @Post('thread/ratios')
  async setRatio(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity } = await studioBook.the(this.read);
    return submit(
      typed,
      async () => {
        const { stitch, ratio, source } = parseForm(RatioFields(identity), typed);
        const { act } = await this.unit.write(visit, async (writing) => {
          await threadBook.set(writing, stitch, ratio, source);
          writing.says(`Set our own thread ratio for stitch type ${stitch}`, 'thread');
        });
        return seeOther('/cloth-room/thread', act);
      },
      async (form) =>
        threadPage(
          { seams: freshForm('', { waste: '15' }), ratio: form, refused: 'ratio' },
          await threadBook.all(this.read),
          identity,
        ),
    );
  }

  @Post('thread/ratios/:stitch/drop')
  async dropRatio(@Param('stitch') stitch: string, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await this.unit.write(visit, async (writing) => {
      await threadBook.drop(writing, stitch);
      writing.says(`Took out our own thread ratio for stitch type ${stitch}`, 'thread');
    });
    return seeOther('/cloth-room/thread', act);
  }
}
