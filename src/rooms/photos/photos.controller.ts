import { createHash } from 'node:crypto';
import { Body, Controller, Get, Param, Post, Query, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { photoBook } from '../../storage/books/fitting/photo-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { OnceOnly, onceKeyOf } from '../../web/manners/once-only.js';
import { file, page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import {
  addPhoto,
  correctConsent,
  photoInSight,
  photosOf,
  takeAwayPhoto,
  withdrawConsent,
} from './keep-photo.js';
import { ConsentFields, PhotoFields, readPhotoForm, typedConsent } from './photo.form.js';
import { consentPage, newPhotoForm, type PhotosTold, photosPage, photosUrl } from './photos.page.js';
import { subjectOf } from './subject.js';

/** Photographs: of fittings, garments, clients, and swatches of materials. */
@Controller('photos')
export class PhotosController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly onceOnly: OnceOnly,
  ) {}

  @Get()
  async list(@Query('of') of = ''): Promise<Reply> {
    const told = await this.told(of);
    const { template, words } = photosPage(told, newPhotoForm(told));
    return page(template, words);
  }

  /** The form carries a file, so its once-only key is first known here. */
  @Post()
  async add(@Req() request: FastifyRequest, @Hand() visit: Visit): Promise<Reply> {
    const { typed, photo } = await readPhotoForm(request);
    const act = (hand: Visit): Promise<Reply> =>
      submit(
        typed,
        async () => {
          const said = parseForm(PhotoFields, typed);
          const { act: done } = await addPhoto(this.unit, this.read, this.clock, hand, said, photo);
          return seeOther(photosUrl(said.of), done);
        },
        async (form) => photosPage(await this.told(typed.of ?? ''), form),
      );
    if (!typed.once) return act(visit);
    const asked = [typed, createHash('sha256').update(photo).digest('hex')];
    const once = onceKeyOf(typed.once, visit.who.id, 'POST', '/photos', asked);
    return (await this.onceOnly.run(once, () => act({ ...visit, once }))) as Reply;
  }

  @Post('withdraw')
  async withdraw(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { client = '', of = '' } = typedOf(body);
    const { act } = await withdrawConsent(this.unit, visit, client);
    return seeOther(photosUrl(of), act);
  }

  @Get(':photo')
  async consentForm(@Param('photo') id: string): Promise<Reply> {
    const photo = await photoInSight(this.read, this.clock, id);
    const form = freshForm('', typedConsent(photo), photo.version);
    const { template, words } = consentPage(photo, await subjectOf(this.read, photo.about), form);
    return page(template, words);
  }

  @Post(':photo')
  async consent(@Param('photo') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const photo = await photoInSight(this.read, this.clock, id);
    return submit(
      typed,
      async () => {
        const said = parseForm(ConsentFields, typed);
        const { act } = await correctConsent(this.unit, this.clock, visit, id, said, versionSeen(typed));
        return seeOther(photosUrl(photo.about), act);
      },
      async (form) => consentPage(photo, await subjectOf(this.read, photo.about), form),
      async () => typedConsent(await photoBook.one(this.read, id)),
    );
  }

  @Get(':photo/picture')
  picture(@Param('photo') id: string): Promise<Reply> {
    return this.bytes(id, 'whole');
  }

  @Get(':photo/small')
  small(@Param('photo') id: string): Promise<Reply> {
    return this.bytes(id, 'small');
  }

  @Post(':photo/take-away')
  async takeAway(@Param('photo') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value, act } = await takeAwayPhoto(this.unit, visit, id);
    return seeOther(photosUrl(value.about), act);
  }

  private async bytes(id: string, size: 'whole' | 'small'): Promise<Reply> {
    await photoInSight(this.read, this.clock, id);
    return file(
      await photoBook.picture(this.read, id, size),
      'image/jpeg',
      `photograph-${id.slice(-6)}.jpg`,
      true,
    );
  }

  private async told(of: string): Promise<PhotosTold> {
    const { identity } = await studioBook.the(this.read);
    return {
      subject: await subjectOf(this.read, of),
      photos: await photosOf(this.read, this.clock, of),
      rule: await photoBook.rule(this.read),
      today: todayIn(this.clock, identity.zone),
    };
  }
}
