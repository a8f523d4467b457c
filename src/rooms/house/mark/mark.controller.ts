import { createHash } from 'node:crypto';
import { Body, Controller, Get, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { NotFound } from '../../../domain/kernel/errors.js';
import { markBook } from '../../../storage/books/house/mark-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { OnceOnly, onceKeyOf } from '../../../web/manners/once-only.js';
import { MARK_TYPES } from '../../../web/papers/house-on-paper.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { MarkFields, readMarkForm } from './mark.form.js';
import { markForm, markPage, markUrl } from './mark.page.js';
import { putMark, takeOffMark } from './put-mark.js';

/** The mark on the letterhead. */
@Controller('house/mark')
export class MarkController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly onceOnly: OnceOnly,
  ) {}

  @Get()
  async form(): Promise<Reply> {
    const mark = await markBook.maybe(this.read);
    const { template, words } = markPage(mark, markForm(mark));
    return page(template, words);
  }

  @Get('picture')
  async picture(): Promise<Reply> {
    const mark = await markBook.maybe(this.read);
    if (!mark) throw new NotFound('mark');
    return file(Buffer.from(mark.bytes, 'base64'), MARK_TYPES[mark.kind], `mark.${mark.kind}`, true);
  }

  /** The form carries a file, so its once-only key is first known here. */
  @Post()
  async put(@Req() request: FastifyRequest, @Hand() visit: Visit): Promise<Reply> {
    const { typed, picture } = await readMarkForm(request);
    const act = (hand: Visit): Promise<Reply> =>
      submit(
        typed,
        async () => {
          const said = parseForm(MarkFields, typed);
          const { act: done } = await putMark(this.unit, hand, said, picture, versionSeen(typed));
          return seeOther(markUrl, done);
        },
        async (form) => markPage(await markBook.maybe(this.read), form),
        async () => ({ alternative: (await markBook.maybe(this.read))?.alternative ?? '' }),
      );
    if (!typed.once || !request.isMultipart()) return act(visit);
    const asked = [typed, createHash('sha256').update(picture).digest('hex')];
    const once = onceKeyOf(typed.once, visit.who.id, 'POST', markUrl, asked);
    return (await this.onceOnly.run(once, () => act({ ...visit, once }))) as Reply;
  }

  @Post('take-off')
  async takeOff(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await takeOffMark(this.unit, visit, versionSeen(typedOf(body)));
    return seeOther(markUrl, act);
  }
}
