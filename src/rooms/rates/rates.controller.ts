import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { Invalid, NotFound, Trouble } from '../../domain/kernel/errors.js';
import { rateCard } from '../../domain/rates/rate-card.js';
import type { FormModel } from '../../printing/templates/page-model.js';
import { overheadOfYear } from '../../storage/books/money-out/overhead-year.js';
import { ratesBook } from '../../storage/books/rates-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { type FieldKit, typedKit } from '../../web/fields/kits.js';
import { rowsTyped } from '../../web/forms/closed-up.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { type Typed, typedOf } from '../../web/forms/typed.js';
import { overheadSoFar } from '../../web/rates/overhead-so-far.js';
import { COMMON_OVERHEAD } from '../../web/rates/working-fields.js';
import { page, part, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import {
  type Dated,
  readHour,
  readMachine,
  readPerson,
  tidyHour,
  typedHour,
  typedMachine,
  typedPerson,
} from './rates.form.js';
import {
  hourFormPage,
  hourSum,
  machineFormPage,
  personFormPage,
  type RatesView,
  ratesPage,
} from './rates.page.js';
import { inForceOn, setRates } from './set-rates.js';
import { shareWorked } from './share-worked.js';

/** The pages of the Rates room. */
@Controller('rates')
export class RatesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async rates(): Promise<Reply> {
    const view = await this.view();
    const reckoned = inForceOn(view.cards, view.today)?.people[0]?.year?.productiveShare;
    const worked = await shareWorked(this.read, view.today, view.studio.identity.locale, reckoned);
    const year = await overheadOfYear(this.read, view.today);
    const overhead = year ? overheadSoFar(year, view.studio.identity.locale) : '';
    return page('rates/rates', { ...ratesPage(view), worked, overhead });
  }

  @Get('cards/:id')
  async card(@Param('id') id: string): Promise<Reply> {
    const view = await this.view();
    const card = view.cards.find((each) => each.id === id);
    if (!card) throw new NotFound('rate card');
    return page('rates/rates', { ...ratesPage(view, card), worked: '', overhead: '' });
  }

  @Get('hour')
  async hourForm(@Hand() visit: Visit): Promise<Reply> {
    const view = await this.view();
    const workings = inForceOn(view.cards, view.today);
    const { locale } = view.studio.identity;
    const values = workings
      ? typedHour(workings, locale)
      : {
          name: view.studio.identity.maker || visit.who.name,
          ...rowsTyped(
            'overhead',
            COMMON_OVERHEAD.map((name) => ({ name })),
          ),
        };
    const sum = hourSum(workings && rateCard(view.today, workings), view.studio);
    const { template, words } = hourFormPage(this.form('/rates/hour', view, values), view, sum);
    return page(template, words);
  }

  @Post('hour/sum')
  async hourSum(@Body() body: unknown): Promise<Reply> {
    const view = await this.view();
    return part('rates/hour-sum', { sum: this.sumOf(typedOf(body), view) });
  }

  @Post('hour')
  async setHour(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = tidyHour(typedOf(body));
    const view = await this.view();
    return this.set(typed, visit, readHour, (form) => hourFormPage(form, view, this.sumOf(typed, view)));
  }

  @Get('people/new')
  async newPerson(): Promise<Reply> {
    const view = await this.view();
    const { template, words } = personFormPage(this.form('/rates/people/new', view, {}), view, 'new', false);
    return page(template, words);
  }

  @Post('people/new')
  async addPerson(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const view = await this.view();
    return this.set(typedOf(body), visit, readPerson, (form) => personFormPage(form, view, 'new', false));
  }

  @Get('people/:place')
  async personForm(@Param('place') place: string): Promise<Reply> {
    const view = await this.view();
    const workings = inForceOn(view.cards, view.today);
    const terms = workings?.people[placeOf(place)];
    if (!terms) throw new NotFound('person on the card');
    const values = typedPerson(terms, view.studio.identity.locale);
    const form = this.form(`/rates/people/${place}`, view, values);
    const { template, words } = personFormPage(form, view, place, (workings?.people.length ?? 0) > 1);
    return page(template, words);
  }

  @Post('people/:place')
  async setPerson(
    @Param('place') place: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const view = await this.view();
    const read = (kit: FieldKit, typed: Typed): Dated => readPerson(kit, typed, placeOf(place));
    return this.set(typedOf(body), visit, read, (form) => personFormPage(form, view, place, false));
  }

  @Post('people/:place/remove')
  async removePerson(
    @Param('place') place: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { today } = await this.view();
    const change: Dated['change'] = (inForce) => {
      const people = (inForce?.people ?? []).filter((_, index) => index !== placeOf(place));
      if (!inForce || people.length === inForce.people.length) throw new NotFound('person on the card');
      return { ...inForce, people };
    };
    const { act } = await setRates(this.unit, visit, today, change, versionSeen(typedOf(body)));
    return seeOther('/rates', act);
  }

  @Get('machine')
  async machineForm(): Promise<Reply> {
    const view = await this.view();
    const workings = inForceOn(view.cards, view.today);
    if (!workings) return seeOther('/rates/hour');
    const values = typedMachine(workings, view.studio.identity.locale);
    const { template, words } = machineFormPage(this.form('/rates/machine', view, values), view);
    return page(template, words);
  }

  @Post('machine')
  async setMachine(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const view = await this.view();
    return this.set(typedOf(body), visit, readMachine, (form) => machineFormPage(form, view));
  }

  private async view(): Promise<RatesView> {
    const studio = await studioBook.the(this.read);
    return {
      studio,
      cards: await ratesBook.all(this.read),
      today: todayIn(this.clock, studio.identity.zone),
    };
  }

  private form(action: string, view: RatesView, values: Record<string, string>): FormModel {
    return freshForm(action, { from: view.today, ...values }, view.cards.length);
  }

  private sumOf(typed: Typed, view: RatesView): object {
    const inForce = inForceOn(view.cards, view.today);
    try {
      const { from, change } = readHour(typedKit(view.studio.identity), typed);
      return hourSum(rateCard(from, change(inForce, view.studio)), view.studio);
    } catch (trouble) {
      if (!(trouble instanceof Trouble)) throw trouble;
      const says = trouble instanceof Invalid && trouble.fields.length < 2 ? trouble.message : '';
      return hourSum(undefined, view.studio, says);
    }
  }

  private set(
    typed: Typed,
    visit: Visit,
    read: (kit: FieldKit, typed: Typed) => Dated,
    again: Parameters<typeof submit>[2],
  ): Promise<Reply> {
    return submit(
      typed,
      async () => {
        const { identity } = await studioBook.the(this.read);
        const { from, change } = read(typedKit(identity), typed);
        const { act } = await setRates(this.unit, visit, from, change, versionSeen(typed));
        return seeOther('/rates', act);
      },
      again,
    );
  }
}

const placeOf = (text: string): number => (/^\d{1,2}$/.test(text) ? Number(text) : -1);
