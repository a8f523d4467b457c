import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import type { Commission } from '../../domain/commissions/commission.js';
import type { FormModel } from '../../printing/templates/page-model.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { typedKit } from '../../web/fields/kits.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { commissionCrumbs, commissionUrl } from './commission.page.js';
import { priceCommission } from './price-commission.js';
import { CERTAINTY_WORDS, PricingFields, typedPricing } from './pricing.form.js';

/** What a commission is priced by. */
@Controller('commissions/:id/pricing')
export class PricingController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async form(@Param('id') id: string): Promise<Reply> {
    const commission = await commissionBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    const form = freshForm('', typedPricing(commission, identity.locale), commission.version);
    const { template, words } = this.page(form, commission, identity.currency);
    return page(template, words);
  }

  @Post()
  async change(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity } = await studioBook.the(this.read);
    return submit(
      typed,
      async () => {
        const said = parseForm(PricingFields(typedKit(identity)), typed);
        const { act } = await priceCommission(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(commissionUrl(id), act);
      },
      async (form) => this.page(form, await commissionBook.one(this.read, id), identity.currency),
      async () => typedPricing(await commissionBook.one(this.read, id), identity.locale),
    );
  }

  private page(
    form: FormModel,
    commission: Commission,
    currency: string,
  ): { template: string; words: PageWords } {
    const url = commissionUrl(commission.id);
    return {
      template: 'commissions/pricing',
      words: {
        title: `How ${commission.number} is priced`,
        room: 'commissions',
        crumbs: commissionCrumbs(commission),
        form: { ...form, action: `${url}/pricing` },
        currency,
        certainties: Object.entries(CERTAINTY_WORDS).map(([value, text]) => ({
          value,
          text,
          hint: CERTAINTY_HINTS[value as keyof typeof CERTAINTY_HINTS],
        })),
        leave: { text: 'Leave as it is', href: url },
      },
    };
  }
}

const CERTAINTY_HINTS = {
  '0.5': 'As likely to take longer as not.',
  '0.8': 'One garment in five takes longer.',
  '0.9': 'One garment in ten takes longer.',
};
