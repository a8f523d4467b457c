import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { Conflict } from '../../../domain/kernel/errors.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { People } from './keep-person.js';
import { Pairing } from './pairing.js';
import { codePage, PEOPLE_URL, peoplePage, personPage, personUrl } from './people.page.js';
import { PersonFields } from './person.form.js';

/** People who work here, what they may do, and their phones. */
@Controller('house/people')
export class PeopleController {
  constructor(
    private readonly read: ReadSide,
    private readonly people: People,
    private readonly pairing: Pairing,
  ) {}

  @Get()
  async list(): Promise<Reply> {
    return page('house/people/list', await peoplePage(this.read));
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await this.people.add(visit, parseForm(PersonFields, typed));
        return seeOther(personUrl(value.id), act);
      },
      async (form) => ({
        template: 'house/people/list',
        words: await peoplePage(this.read, { ...form, action: PEOPLE_URL }),
      }),
    );
  }

  @Get(':id')
  async person(@Param('id') id: string): Promise<Reply> {
    return page('house/people/person', await personPage(this.read, id));
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(PersonFields, typed);
        const { act } = await this.people.correct(visit, id, said, versionSeen(typed));
        return seeOther(personUrl(id), act);
      },
      async (form) => ({
        template: 'house/people/person',
        words: await personPage(this.read, id, { ...form, action: personUrl(id) }),
      }),
    );
  }

  @Post(':id/let-go')
  async letGo(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { act } = await this.people.letGo(visit, id, versionSeen(typedOf(body)));
    return seeOther(PEOPLE_URL, act);
  }

  /** The code is on this page and nowhere else. */
  @Post(':id/phones')
  async layCodeReady(@Param('id') id: string, @Hand() visit: SignedIn): Promise<Reply> {
    const person = await personBook.one(this.read, id);
    if (!person.accountId || person.left)
      throw new Conflict('A phone can be paired for somebody who works here only.', 'not-here');
    return page(
      'house/people/code',
      codePage(person, await this.pairing.layCodeReady(visit, person.accountId)),
    );
  }

  @Post(':id/phones/:phone/revoke')
  async revoke(
    @Param('id') id: string,
    @Param('phone') phone: string,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    return seeOther(personUrl(id), await this.pairing.revoke(visit, phone));
  }
}
