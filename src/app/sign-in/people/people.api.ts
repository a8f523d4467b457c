import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { Conflict } from '../../../domain/kernel/errors.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { phoneBook } from '../../../storage/books/house/phone-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, createdSecret, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { People } from './keep-person.js';
import { CODE_MINUTES, Pairing } from './pairing.js';
import { PersonFields } from './person.form.js';

/** People and their phones, for programs. */
@Controller('api/house/people')
export class PeopleApi {
  constructor(
    private readonly read: ReadSide,
    private readonly people: People,
    private readonly pairing: Pairing,
  ) {}

  @Get()
  @Describe({ summary: 'Everybody who works here, and who left' })
  async list(): Promise<Reply> {
    return answer({ items: await personBook.all(this.read) });
  }

  @Post()
  @Describe({
    summary: 'Add somebody',
    examples: { maker: { name: 'Wilmot Larkspur', role: 'maker', seesPrices: false } },
  })
  async add(@Body({ schema: PersonFields }) body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { value } = await this.people.add(visit, parse(PersonFields, body));
    return created(`/api/house/people/${value.id}`, value);
  }

  @Get(':id')
  @Describe({ summary: 'One person, with their phones' })
  async one(@Param('id') id: string): Promise<Reply> {
    const person = await personBook.one(this.read, id);
    const phones = (await phoneBook.all(this.read)).filter(({ accountId }) => accountId === person.accountId);
    return answer({ ...person, phones }, 200, etagOf(person.version));
  }

  @Put(':id')
  @Describe({
    summary: 'Correct what somebody may do',
    examples: { trusted: { name: 'Wilmot Larkspur', role: 'maker', seesPrices: true } },
  })
  async correct(
    @Param('id') id: string,
    @Body({ schema: PersonFields }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    const said = parse(PersonFields, body);
    const { value } = await presentAs(
      () => this.one(id),
      () => this.people.correct(visit, id, said, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }

  @Post(':id/let-go')
  @Describe({ summary: 'Somebody left: their minutes stay, they are let in no more' })
  async letGo(
    @Param('id') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    const { value } = await presentAs(
      () => this.one(id),
      () => this.people.letGo(visit, id, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }

  @Post(':id/phones')
  @Describe({ summary: `Lay a pairing code ready; it is good for ${CODE_MINUTES} minutes and one phone` })
  async layCodeReady(@Param('id') id: string, @Hand() visit: SignedIn): Promise<Reply> {
    const person = await personBook.one(this.read, id);
    if (!person.accountId || person.left)
      throw new Conflict('A phone can be paired for somebody who works here only.', 'not-here');
    const code = await this.pairing.layCodeReady(visit, person.accountId);
    return createdSecret(`/api/house/people/${id}`, { code, minutes: CODE_MINUTES });
  }

  @Delete(':id/phones/:phone')
  @Describe({ summary: 'Let a phone in no more' })
  async revoke(
    @Param('phone') phone: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    await this.pairing.revoke(visit, phone, versionOfIfMatch(match));
    return answer({ revoked: phone });
  }
}
