import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { clientBook } from '../../../storage/books/client-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { Clock } from '../../../storage/clock.js';
import { whatIsHeld } from '../../../storage/holding/what-is-held.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { eraseForGood } from './erase.js';
import { ErasureFields } from './held.form.js';
import { heldInJson } from './held-files.js';
import { whyNotErased } from './why-not-erased.js';

/** What is held on a client, for programs. */
@Controller('api/clients/:client')
export class HeldApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('export')
  @Describe({
    summary: 'Everything that is held on a client',
    description: 'Records by kind, with what becomes of each kind when the client is erased.',
  })
  async export(@Param('client') id: string): Promise<Reply> {
    const { code } = await clientBook.one(this.read, id);
    return answer(heldInJson(code, await whatIsHeld(this.read, id)));
  }

  @Get('erasure')
  @Describe({ summary: 'Whether a client was erased, and what stands in the way of it' })
  async standing(@Param('client') id: string): Promise<Reply> {
    await clientBook.one(this.read, id);
    const { erasedOn } = await keepingBook.of(this.read, id);
    const inTheWay = (await whyNotErased(this.read, id)).map(({ text }) => text);
    return answer({ erasedOn: erasedOn ?? null, inTheWay: erasedOn ? [] : inTheWay });
  }

  @Post('erasure')
  @Describe({
    summary: 'Erase what is held on a client, for good',
    description:
      'Refused with 409 while a commission is open, something of theirs is here, or money is owed.',
    examples: { erase: { number: 'C-0012' } },
  })
  async erase(@Param('client') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    await eraseForGood(this.unit, this.clock, visit, id, parse(ErasureFields, body));
    return this.standing(id);
  }
}
