import { Body, Controller, Get, Post, Req } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Open, type Request } from '../../../web/visit.js';
import { firstPageFor } from '../../../web/who-may.js';
import { COOKIE, Door, PHONE_COOKIE_DAYS } from '../door.js';
import { Pairing } from './pairing.js';
import { PairFields } from './person.form.js';

const words = (form: FormModel): PageWords => ({ title: 'Pair this phone', room: 'none', form });

/** Where a phone is let in: open to strangers, by a code only. */
@Controller('pair')
@Open()
export class PairController {
  constructor(
    private readonly door: Door,
    private readonly pairing: Pairing,
  ) {}

  @Get()
  ask(): Reply {
    return page('sign-in/pair', words(freshForm('/pair')));
  }

  @Post()
  pair(@Body() body: unknown, @Req() request: Request): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { code, phone } = parseForm(PairFields, typed);
        const secret = await this.pairing.pair(code, phone, request.ip);
        const visit = await this.door.byCookie(secret);
        return seeOther(visit ? firstPageFor(visit) : '/', undefined, {
          [COOKIE]: { value: secret, days: PHONE_COOKIE_DAYS },
        });
      },
      (form) => ({ template: 'sign-in/pair', words: words({ ...form, action: '/pair' }) }),
    );
  }
}
