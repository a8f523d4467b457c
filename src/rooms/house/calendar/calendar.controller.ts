import { Body, Controller, Get, Param, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { calendarKeyBook } from '../../../storage/books/fitting/calendar-key-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { instantInWords } from '../../../web/words/dates.js';
import { KeyFields, makeKey, revokeKey } from './keys.js';

const HERE = '/house/calendar';
const HOUSE = { text: 'House', href: '/house' };

/** The calendar's secret addresses: made, shown once, revoked. */
@Controller('house/calendar')
export class CalendarController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async keys(): Promise<Reply> {
    const { template, words } = await this.drawn(freshForm(HERE));
    return page(template, words);
  }

  /** The address is on this page and nowhere else, now and never again. */
  @Post()
  make(@Body() body: unknown, @Hand() visit: Visit, @Req() request: FastifyRequest): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { name } = parseForm(KeyFields, typed);
        const { path } = await makeKey(this.unit, visit, name);
        return page('house/calendar/address', {
          title: `Calendar for ${name}`,
          room: 'house',
          crumbs: [HOUSE, { text: 'Calendar', href: HERE }],
          address: `${request.protocol}://${request.headers.host ?? ''}${path}`,
        });
      },
      (form) => this.drawn({ ...form, action: HERE }),
    );
  }

  @Post(':key/revoke')
  async revoke(@Param('key') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await revokeKey(this.unit, visit, id);
    return seeOther(HERE, act);
  }

  private async drawn(form: FormModel): Promise<{ template: string; words: PageWords }> {
    const { identity } = await studioBook.the(this.read);
    const keys = await calendarKeyBook.open(this.read);
    return {
      template: 'house/calendar/keys',
      words: {
        title: 'Calendar',
        room: 'house',
        crumbs: [HOUSE],
        form: { ...form, action: HERE },
        any: keys.length > 0,
        addresses: {
          caption: 'Secret addresses',
          columns: [{ text: 'Read on' }, { text: 'Made' }, { text: 'By' }, { text: '' }],
          rows: keys.map(({ id, name, madeAt, madeBy }) => ({
            cells: [
              { text: name },
              { text: instantInWords(madeAt, identity.zone) },
              { text: madeBy },
              {
                press: {
                  action: `${HERE}/${id}/revoke`,
                  text: 'Revoke',
                  label: `Revoke the address for ${name}`,
                  once: freshForm('').once,
                },
              },
            ],
          })),
        },
      },
    };
  }
}
