import { Controller, Get, Query } from '@nestjs/common';
import { findAnything } from '../../storage/finding/find-anything.js';
import { findables } from '../../storage/finding/findables.js';
import { ReadSide } from '../../storage/read-side.js';
import { answer, page, type Reply } from '../../web/reply.js';
import { findPage } from './find.page.js';

/** Finding anything, from every page. */
@Controller()
export class FindController {
  constructor(private readonly read: ReadSide) {}

  @Get('find')
  async find(@Query('q') asked: unknown): Promise<Reply> {
    const said = typeof asked === 'string' ? asked : '';
    return page('find/find', findPage(said, await findAnything(this.read, findables, said)));
  }

  @Get('api/find')
  async findForPrograms(@Query('q') asked: unknown): Promise<Reply> {
    const said = typeof asked === 'string' ? asked : '';
    return answer({ kinds: await findAnything(this.read, findables, said, 20) });
  }
}
