import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { clientBook } from '../../storage/books/client-book.js';
import { dimensionBook } from '../../storage/books/measuring/dimension-book.js';
import { measurementBook } from '../../storage/books/measuring/measurement-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand, type SignedIn } from '../../web/visit.js';
import { mayGo } from '../../web/who-may.js';
import { addClient, correctClient } from './add-client.js';
import { ClientFields, typedClient } from './client.form.js';
import {
  clientFormPage,
  clientListPage,
  clientPage,
  clientUrl,
  correctClientForm,
  newClientForm,
} from './client.page.js';
import { measuredOf } from './measurements/through-time.js';

/** The pages of the Clients room. */
@Controller('clients')
export class ClientsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(@Query('q') asked = '', @Query('after') after = ''): Promise<Reply> {
    return page(
      'clients/list',
      clientListPage(await clientBook.find(this.read, asked, 20, after), asked, after),
    );
  }

  @Get('new')
  async newClient(): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const { template, words } = clientFormPage(newClientForm(identity.country));
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await addClient(this.unit, visit, parseForm(ClientFields, typed));
        return seeOther(clientUrl(value.id), act);
      },
      (form) => clientFormPage(form),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const client = await clientBook.one(this.read, id);
    const sets = await measurementBook.ofClient(this.read, id);
    return page(
      'clients/client',
      clientPage(client, measuredOf(sets, await dimensionBook.all(this.read)), (href) =>
        mayGo(hand, 'GET', href),
      ),
    );
  }

  @Get(':id/correct')
  async correctForm(@Param('id') id: string): Promise<Reply> {
    const client = await clientBook.one(this.read, id);
    const { template, words } = clientFormPage(correctClientForm(client), client);
    return page(template, words);
  }

  @Post(':id')
  async correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await correctClient(
          this.unit,
          visit,
          id,
          parseForm(ClientFields, typed),
          versionSeen(typed),
        );
        return seeOther(clientUrl(id), act);
      },
      async (form) => clientFormPage(form, await clientBook.one(this.read, id)),
      async () => typedClient(await clientBook.one(this.read, id)),
    );
  }
}
