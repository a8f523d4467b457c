import { randomUUID } from 'node:crypto';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import type { FormModel } from '../../printing/templates/page-model.js';
import { accountBook } from '../../storage/books/account-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { line } from '../../web/fields/fields.js';
import { newPassphrase } from '../../web/fields/new-passphrase.js';
import { freshForm, submit } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../web/reply.js';
import { Hand, type SignedIn } from '../../web/visit.js';
import { countInWords } from '../../web/words/counts.js';
import { instantInWords } from '../../web/words/dates.js';
import { Door } from './door.js';

export const TokenSaid = z.strictObject({ name: line('Say what this token is for.', 100) });

const Passphrases = z.strictObject({
  present: z.string().min(1, 'Type your present passphrase.').max(400),
  wanted: newPassphrase(),
});

const HERE = '/house/people-and-devices';

/** People and devices: the passphrase, signed-in browsers, tokens of programs. */
@Controller('house/people-and-devices')
export class DevicesController {
  constructor(
    private readonly door: Door,
    private readonly read: ReadSide,
  ) {}

  @Get()
  async devices(@Hand() visit: SignedIn): Promise<Reply> {
    return page('house/people-and-devices', await this.words(visit));
  }

  /** The secret is on this page and nowhere else, now and never again. */
  @Post('tokens')
  makeToken(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { name } = parseForm(TokenSaid, typed);
        const { secret } = await this.door.makeToken(visit, name);
        return page('house/token', {
          title: `Token for ${name}`,
          room: 'house',
          crumbs: [
            { text: 'House', href: '/house' },
            { text: 'This sign-in and programs', href: HERE },
          ],
          secret,
        });
      },
      (form) => this.again(visit, { ...form, action: `${HERE}/tokens` }),
    );
  }

  @Post('tokens/:id/revoke')
  async revoke(@Param('id') id: string, @Hand() visit: SignedIn): Promise<Reply> {
    return seeOther(HERE, await this.door.revokeToken(visit, id));
  }

  @Post('passphrase')
  changePassphrase(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { present, wanted } = parseForm(Passphrases, typed);
        await this.door.changePassphrase(visit, present, wanted);
        return seeOther(`${HERE}?changed=passphrase`);
      },
      (form) => this.again(visit, { ...form, action: `${HERE}/passphrase` }),
    );
  }

  private async again(visit: SignedIn, form: FormModel): Promise<{ template: string; words: PageWords }> {
    const words = await this.words(visit);
    const which = form.action === `${HERE}/tokens` ? { tokenForm: form } : { passphraseForm: form };
    return { template: 'house/people-and-devices', words: { ...words, ...which, form } };
  }

  private async words(visit: SignedIn): Promise<PageWords> {
    const { identity, keysOn } = await studioBook.the(this.read);
    const tokens = await accountBook.tokens(this.read);
    const browsers = await accountBook.countSignedIn(this.read, visit.who.id);
    return {
      title: 'This sign-in and programs',
      room: 'house',
      crumbs: [{ text: 'House', href: '/house' }],
      browsers: `You are signed in on ${countInWords(browsers, 'browser')}.`,
      everywhere: { action: '/sign-out-everywhere', text: 'Sign out everywhere' },
      keysSaid: keysOn ? 'Single-letter keys are on.' : 'Single-letter keys are off.',
      passphraseForm: freshForm(`${HERE}/passphrase`),
      tokenForm: freshForm(`${HERE}/tokens`),
      tokens:
        tokens.length === 0
          ? ''
          : {
              caption: 'Tokens of programs',
              columns: [{ text: 'For' }, { text: 'Made' }, { text: '' }],
              rows: tokens.map(({ id, name, madeAt }) => ({
                cells: [
                  { text: name },
                  { text: instantInWords(madeAt, identity.zone) },
                  {
                    press: {
                      action: `${HERE}/tokens/${id}/revoke`,
                      text: 'Revoke',
                      label: `Revoke the token for ${name}`,
                      once: randomUUID(),
                    },
                  },
                ],
              })),
            },
    };
  }
}
