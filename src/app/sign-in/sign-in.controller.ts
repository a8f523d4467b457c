import { Body, Controller, Get, Post, Query, Req } from '@nestjs/common';
import { z } from 'zod';
import { NotAllowed } from '../../domain/kernel/errors.js';
import { newPassphrase, notOnesName } from '../../web/fields/new-passphrase.js';
import { freshForm, submit } from '../../web/forms/form.js';
import { KeptForms } from '../../web/forms/kept-forms.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { ownPath } from '../../web/own-path.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand, Open, type Request, type SignedIn } from '../../web/visit.js';
import { firstPageFor, mayGo } from '../../web/who-may.js';
import { COOKIE, COOKIE_DAYS, Door } from './door.js';

const FirstStart = notOnesName(
  z.object({
    code: z.string().trim().min(1, 'Type the code printed in the terminal.').max(40),
    name: z.string().trim().min(1, 'Say who you are.').max(100, 'At most 100 characters.'),
    passphrase: newPassphrase(),
  }),
);

const SignIn = z.object({
  name: z.string().trim().min(1, 'Say who you are.').max(100),
  passphrase: z.string().min(1, 'Type your passphrase.').max(400),
  back: z.string().max(2000).optional(),
  kept: z.string().max(2_000_000).optional(),
});

/** The door: the first start, signing in, and out. */
@Controller()
export class SignInController {
  constructor(
    private readonly door: Door,
    private readonly keptForms: KeptForms,
  ) {}

  @Get('first-start')
  @Open()
  async firstStart(): Promise<Reply> {
    if (await this.door.isOwned()) return seeOther('/sign-in');
    return page('sign-in/first-start', {
      title: 'Open the studio',
      room: 'none',
      form: freshForm('/first-start'),
    });
  }

  @Post('first-start')
  @Open()
  async open(@Body() body: unknown, @Req() request: Request): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(FirstStart, typed);
        const secret = await this.door.openHouse(said.code, said.name, said.passphrase, request.ip);
        return seeOther('/first-run', undefined, { [COOKIE]: { value: secret, days: COOKIE_DAYS } });
      },
      () => ({
        template: 'sign-in/first-start',
        words: { title: 'Open the studio', room: 'none', form: freshForm('/first-start') },
      }),
    );
  }

  @Get('sign-in')
  @Open()
  async signInPage(@Query('back') back?: string): Promise<Reply> {
    if (!(await this.door.isOwned())) return seeOther('/first-start');
    return page('sign-in/sign-in', {
      title: 'Sign in',
      room: 'none',
      form: freshForm('/sign-in', { back: back ?? '' }),
      ranOut: false,
    });
  }

  @Post('sign-in')
  @Open()
  async signIn(@Body() body: unknown, @Req() request: Request): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(SignIn, typed);
        const secret = await this.door.signIn(said.name, said.passphrase, request.ip);
        const visit = await this.door.byCookie(secret);
        if (!visit) throw new NotAllowed('Sign in again.');
        // The sign-in that this browser had before ends: nobody goes on under it.
        if (request.visit) await this.door.signOut(request.visit);
        return seeOther(this.landing(said, visit), undefined, {
          [COOKIE]: { value: secret, days: COOKIE_DAYS },
        });
      },
      () => ({
        template: 'sign-in/sign-in',
        words: { title: 'Sign in', room: 'none', form: freshForm('/sign-in'), ranOut: Boolean(typed.kept) },
      }),
    );
  }

  @Post('sign-out')
  async signOut(@Hand() visit: SignedIn): Promise<Reply> {
    await this.door.signOut(visit);
    return seeOther('/sign-in', undefined, { [COOKIE]: null });
  }

  @Post('sign-out-everywhere')
  async signOutEverywhere(@Hand() visit: SignedIn): Promise<Reply> {
    await this.door.signOutEverywhere(visit);
    return seeOther('/sign-in', undefined, { [COOKIE]: null });
  }

  /** Back to the page that was asked for, with the form that was being written. Only paths of this server. */
  private landing(said: z.output<typeof SignIn>, visit: SignedIn): string {
    const asked = ownPath(said.back, firstPageFor(visit));
    const back = mayGo(visit, 'GET', asked) ? asked : firstPageFor(visit);
    const typed = said.kept ? typedOf(readJson(said.kept)) : {};
    if (Object.keys(typed).length === 0) return back;
    const key = this.keptForms.keep(visit.who.id, typed);
    return `${back}${back.includes('?') ? '&' : '?'}kept=${key}`;
  }
}

const readJson = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return {};
  }
};
