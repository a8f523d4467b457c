import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { standingMarks } from '../../../domain/commissions/garment-mark.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { frozenTogether, readReckoning } from '../../../domain/reckoning/frozen-reckoning.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { file, type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { closeGarment, inTheWay, reopenGarment } from './close-garment.js';
import { reckoningTold } from './gather-reckoning.js';
import { ReckoningForm, ReopenFields } from './reckoning.form.js';
import { reckoningUrl, reckoningWords } from './reckoning.page.js';
import { bridgeTable, reckoningSentence } from './reckoning-words.js';

/** The reckoning of a garment: as it stands, frozen, opened again; and of a commission. */
@Controller('commissions/:commission')
export class ReckoningController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get('garments/:garment/reckoning')
  async look(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    const { template, words } = await this.drawn(commission, garment);
    return page(template, words);
  }

  @Post('garments/:garment/reckoning')
  close(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const kept = await garmentIn(this.read, commission, garment);
        const { words, ...choices } = parseForm(ReckoningForm(await studioBook.the(this.read)), typed);
        const { act } = await closeGarment(this.unit, this.clock, visit, garment, choices, words);
        return seeOther(reckoningUrl(kept), act);
      },
      (form) => this.drawn(commission, garment, form),
    );
  }

  @Post('garments/:garment/reckoning/reopen')
  reopen(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const kept = await garmentIn(this.read, commission, garment);
        const { reason } = parseForm(ReopenFields, typed);
        const { act } = await reopenGarment(this.unit, visit, garment, reason);
        return seeOther(reckoningUrl(kept), act);
      },
      (form) => this.drawn(commission, garment, form),
    );
  }

  @Get('garments/:garment/reckoning.pdf')
  async sheet(@Param('commission') commissionId: string, @Param('garment') id: string): Promise<Reply> {
    const { commission, garment, studio, closed } = await this.gather(commissionId, id);
    const one = closed && readReckoning(closed.document);
    if (!closed || !one) throw new NotFound('reckoning of this garment');
    const { identity } = studio;
    const model = {
      ...reckoningWords(commission, garment, one, identity.locale),
      language: identity.locale,
      studio: identity.name,
      number: `${commission.number}/${garment.place}`,
      closedOn: dateInWords(closed.on),
      notes: closed.words,
    };
    const { html, sheet } = printedSlip(
      this.templates,
      'commissions/reckoning/sheet',
      'A4',
      `${identity.name} · for the workroom alone`,
      model,
    );
    const bytes = await this.printer.print(html, sheet);
    return file(bytes, 'application/pdf', `reckoning-${commission.number}-${garment.place}.pdf`, true);
  }

  @Get('reckoning')
  async ofCommission(@Param('commission') id: string): Promise<Reply> {
    const commission = await commissionBook.one(this.read, id);
    const { locale } = (await studioBook.the(this.read)).identity;
    const garments = await garmentBook.ofCommission(this.read, id);
    const marks = await garmentMarkBook.ofGarments(
      this.read,
      garments.map((garment) => garment.id),
    );
    const closed = garments.flatMap((garment) => {
      const mark = standingMarks(marks.get(garment.id) ?? []).find(({ kind }) => kind === 'closed');
      const reckoning = mark && readReckoning(mark.document);
      return reckoning ? [{ garment, reckoning }] : [];
    });
    const whole = closed.length > 0 ? frozenTogether(closed.map(({ reckoning }) => reckoning)) : undefined;
    const open = garments.filter((garment) => !closed.some((one) => one.garment.id === garment.id));
    return page('commissions/reckoning/commission', {
      title: `Reckoning: ${commission.title}`,
      tab: `Reckoning: ${commission.number}`,
      room: 'commissions',
      crumbs: commissionCrumbs(commission),
      any: whole !== undefined,
      sentence: whole ? reckoningSentence(whole, locale) : '',
      bridge: whole ? bridgeTable(whole, locale) : {},
      garments: {
        caption: 'Garment by garment',
        columns: [{ text: 'Garment' }, { text: 'In a sentence' }],
        rows: [
          ...closed.map(({ garment, reckoning }) => ({
            cells: [
              { text: capitalised(garment.name), href: reckoningUrl(garment) },
              { text: reckoningSentence(reckoning, locale) },
            ],
          })),
          ...open.map((garment) => ({
            cells: [
              { text: capitalised(garment.name), href: reckoningUrl(garment) },
              { text: 'Not closed yet; it is not in the sums above.' },
            ],
          })),
        ],
      },
    });
  }

  private async gather(commissionId: string, id: string) {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const studio = await studioBook.the(this.read);
    const marks = standingMarks(await garmentMarkBook.ofGarment(this.read, id));
    return {
      garment,
      commission,
      studio,
      closed: marks.find(({ kind }) => kind === 'closed'),
      isCancelled: marks.some(({ kind }) => kind === 'cancelled'),
    };
  }

  private async drawn(
    commissionId: string,
    id: string,
    form?: FormModel,
  ): Promise<{ template: string; words: PageWords }> {
    const { garment, commission, studio, closed, isCancelled } = await this.gather(commissionId, id);
    const { locale } = studio.identity;
    const url = reckoningUrl(garment);
    const frozen = closed && readReckoning(closed.document);
    if (closed && frozen) {
      return {
        template: 'commissions/reckoning/closed',
        words: {
          ...reckoningWords(commission, garment, frozen, locale),
          ...(form ? { form } : {}),
          closedOn: dateInWords(closed.on),
          notes: closed.words,
          sheet: `${url}.pdf`,
          reopenForm: { ...(form ?? freshForm('')), action: `${url}/reopen` },
        },
      };
    }
    const today = todayIn(this.clock, studio.identity.zone);
    const found = await reckoningTold(this.read, this.clock, id, { unwritten: 'as-planned' }, today);
    const blocked = await inTheWay(this.read, garment);
    return {
      template: 'commissions/reckoning/open',
      words: {
        ...(found
          ? reckoningWords(commission, garment, found.frozen, locale)
          : {
              title: `Reckoning: ${capitalised(garment.name)}`,
              room: 'commissions' as const,
              crumbs: commissionCrumbs(commission),
            }),
        ...(form ? { form } : {}),
        hasRates: found !== undefined,
        isCancelled,
        blocked,
        // What was typed comes back even where something stood in the way in the meantime.
        asks: blocked.length === 0 || form !== undefined,
        closeForm: { ...(form ?? freshForm('', { unwritten: 'as-planned' })), action: url },
        choices: [
          { value: 'as-planned', text: 'taken as planned' },
          { value: 'none', text: 'none: nothing went in, nothing was paid' },
        ],
      },
    };
  }
}
