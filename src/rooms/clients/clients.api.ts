import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import { clientBook } from '../../storage/books/client-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { pageSize } from '../../web/api/page-size.js';
import { presentAs } from '../../web/api/present-as.js';
import { parse } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, created, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { addClient, correctClient } from './add-client.js';
import { ClientFields } from './client.form.js';

/** Clients for programs. */
@Controller('api/clients')
export class ClientsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(
    @Query('q') asked = '',
    @Query('after') after = '',
    @Query('limit') limit = '20',
  ): Promise<Reply> {
    return answer(await clientBook.find(this.read, asked, pageSize(limit, 20), after));
  }

  @Post()
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addClient(this.unit, visit, parse(ClientFields, body));
    return created(`/api/clients/${value.id}`, value);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const client = await clientBook.one(this.read, id);
    return answer(client, 200, etagOf(client.version));
  }

  @Put(':id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await presentAs(
      () => this.one(id),
      () => correctClient(this.unit, visit, id, parse(ClientFields, body), versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }
}
