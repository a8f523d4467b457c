import { Body, Controller, Delete, Get, Headers, Param, Post } from '@nestjs/common';
import { NotFound } from '../../domain/kernel/errors.js';
import { accountBook } from '../../storage/books/account-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { presentAs } from '../../web/api/present-as.js';
import { parse } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, createdSecret, type Reply } from '../../web/reply.js';
import { Hand, type SignedIn } from '../../web/visit.js';
import { TokenSaid } from './devices.controller.js';
import { Door } from './door.js';

/** Tokens for programs, made and revoked by programs. */
@Controller('api/house/tokens')
export class DevicesApi {
  constructor(
    private readonly door: Door,
    private readonly read: ReadSide,
  ) {}

  @Get()
  async tokens(): Promise<Reply> {
    return answer({ items: await accountBook.tokens(this.read) });
  }

  @Get(':id')
  async token(@Param('id') id: string): Promise<Reply> {
    const token = (await accountBook.tokens(this.read)).find((one) => one.id === id);
    if (!token) throw new NotFound('token');
    return answer(token, 200, etagOf(token.version));
  }

  @Post()
  async make(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { name } = parse(TokenSaid, body);
    const { id, secret } = await this.door.makeToken(visit, name);
    return createdSecret(`/api/house/tokens/${id}`, { id, name, secret });
  }

  @Delete(':id')
  async revoke(
    @Param('id') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    await presentAs(
      () => this.token(id),
      () => this.door.revokeToken(visit, id, versionOfIfMatch(match)),
    );
    return answer({ revoked: id });
  }
}
