import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { NotAllowed } from '../../../domain/kernel/errors.js';
import { outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { typedKit } from '../../../web/fields/kits.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { addOutworker, correctOutworker } from './keep-outwork.js';
import { OutworkerFields, RATE_FIELDS, typedOutworker } from './outwork.form.js';
import { outworkerFormPage, outworkersPage } from './outwork.page.js';

/** Piece rates and how somebody is reached are for those who see prices and addresses. */
export const mustSeePrices = ({ seesPrices }: SignedIn): void => {
  if (!seesPrices) throw new NotAllowed('Piece rates are shown to those who see prices.');
};

const CARRIED = new Set(['once', 'version', 'commit']);

/** Who takes work out, and their piece rates. */
@Controller('bench/outwork/workers')
export class OutworkersController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async all(@Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    return page('bench/outwork/outworkers', outworkersPage(await outworkerBook.all(this.read)));
  }

  @Get('new')
  async form(@Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const { template, words } = outworkerFormPage(freshForm(''), (await this.identity()).currency);
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const { typed } = closedUp(typedOf(body), 'rates', RATE_FIELDS);
    return submit(
      typed,
      async () => {
        const { act } = await addOutworker(this.unit, hand, await this.said(typed));
        return seeOther('/bench/outwork/workers', act);
      },
      async (form) => outworkerFormPage(form, (await this.identity()).currency),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const kept = await outworkerBook.one(this.read, id);
    const { locale, currency } = await this.identity();
    const form = freshForm('', typedOutworker(kept, locale), kept.version);
    const { template, words } = outworkerFormPage(form, currency, kept);
    return page(template, words);
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const { typed } = closedUp(typedOf(body), 'rates', RATE_FIELDS);
    return submit(
      typed,
      async () => {
        const said = await this.said(typed);
        const { act } = await correctOutworker(this.unit, hand, id, said, versionSeen(typed));
        return seeOther('/bench/outwork/workers', act);
      },
      async (form) =>
        outworkerFormPage(form, (await this.identity()).currency, await outworkerBook.one(this.read, id)),
      async () => typedOutworker(await outworkerBook.one(this.read, id), (await this.identity()).locale),
    );
  }

  private async identity() {
    return (await studioBook.the(this.read)).identity;
  }

  private async said(typed: Typed) {
    const { rows, rest } = closedUp(typed, 'rates', RATE_FIELDS);
    const top = Object.fromEntries(Object.entries(rest).filter(([name]) => !CARRIED.has(name)));
    return parse(OutworkerFields(typedKit(await this.identity())), { ...top, rates: rows });
  }
}
