import { Body, Controller, Delete, Get, Headers, Put } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { type KeptMark, markBook } from '../../../storage/books/house/mark-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { MarkSent } from './mark.form.js';
import { putMark, takeOffMark } from './put-mark.js';

const shown = ({ version, ...mark }: KeptMark): Reply => answer(mark, 200, etagOf(version));

/** The mark on the letterhead, for programs. */
@Controller('api/house/mark')
export class MarkApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  @Describe({ summary: 'The mark on the letterhead: its kind, what it shows, its bytes as base64.' })
  async mark(): Promise<Reply> {
    const mark = await markBook.maybe(this.read);
    if (!mark) throw new NotFound('mark');
    return shown(mark);
  }

  @Put()
  @Describe({
    summary: 'Puts a mark on the letterhead, or says anew what it shows.',
    description:
      'An SVG or a PNG of at most 500 kB as base64. An SVG is written anew out of still shapes; one that runs or fetches something is refused.',
    examples: {
      'a thimble': {
        alternative: 'A thimble',
        bytes:
          'PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHZpZXdCb3g9IjAgMCAyIDIiPjxjaXJjbGUgY3g9IjEiIGN5PSIxIiByPSIxIi8+PC9zdmc+',
      },
    },
  })
  async put(
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { bytes, ...said } = parse(MarkSent, body);
    const { value } = await presentAs(
      () => this.mark(),
      () => putMark(this.unit, visit, said, bytes, versionOfIfMatch(match)),
    );
    return shown(value);
  }

  @Delete()
  @Describe({ summary: 'Takes the mark off the letterhead.' })
  async takeOff(@Headers('if-match') match: string | undefined, @Hand() visit: Visit): Promise<Reply> {
    await presentAs(
      () => this.mark(),
      () => takeOffMark(this.unit, visit, versionOfIfMatch(match)),
    );
    return answer({ takenOff: true });
  }
}
