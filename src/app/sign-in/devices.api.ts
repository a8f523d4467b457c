import { Body, Controller, Delete, Get, Headers, Param, Post } from '@nestjs/common';
import { accountBook } from '../../storage/books/account-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { parse } from '../../web/forms/parse.js';
import { versionOfIfMatch } from '../../web/forms/version.js';
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
    await this.door.revokeToken(visit, id, versionOfIfMatch(match));
    return answer({ revoked: id });
  }
}
