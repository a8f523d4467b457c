import { Body, Controller, Delete, Get, Headers, Param, Post, Put, Query, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { photoBook } from '../../storage/books/fitting/photo-book.js';
import { Clock } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { Describe } from '../../web/api/describe.js';
import { presentAs } from '../../web/api/present-as.js';
import { parse, parseForm } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, created, file, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { addPhoto, correctConsent, photoInSight, photosOf, takeAwayPhoto } from './keep-photo.js';
import { ConsentFields, PhotoFields, RuleFields, readPhotoForm } from './photo.form.js';
import { subjectOf } from './subject.js';

const AGREED = {
  agreed: { words: 'Back view', scope: 'workroom', consentBy: 'Corvin Haddlestone', until: '2027-03-02' },
};
const RULE = { rule: { ofChildren: false, months: 24, childMonths: 6 } };

/** Photographs for programs. */
@Controller('api/photos')
export class PhotosApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary: 'Photographs of something, newest first, without their bytes',
    description:
      '`of` is a path: `material/…`, `client/…`, `commission/…/garment/…`, `commission/…/fitting/…`.',
  })
  async list(@Query('of') of = ''): Promise<Reply> {
    await subjectOf(this.read, of);
    return answer({ items: await photosOf(this.read, this.clock, of) });
  }

  @Post()
  @Describe({
    summary: 'Adds a photograph',
    description:
      'Send `multipart/form-data`: the file as `photo` (JPEG, PNG or WebP, at most 20 MB), and `of`, `takenOn`, `words`; of people also `scope`, `consentBy`, `until`. It is drawn anew at 1,600 pixels at the most, without what the camera wrote.',
  })
  async add(@Req() request: FastifyRequest, @Hand() visit: Visit): Promise<Reply> {
    const { typed, photo } = await readPhotoForm(request);
    const said = parseForm(PhotoFields, typed);
    const { value } = await addPhoto(this.unit, this.read, this.clock, visit, said, photo);
    return created(`/api/photos/${value.id}`, value);
  }

  @Get('rule')
  @Describe({ summary: 'What the house has settled about photographs' })
  async rule(): Promise<Reply> {
    const { version, ...rule } = await photoBook.rule(this.read);
    return answer(rule, 200, etagOf(version));
  }

  @Put('rule')
  @Describe({ summary: 'Settles how photographs are kept', examples: RULE })
  async settle(
    @Body({ schema: RuleFields }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(RuleFields, body);
    await presentAs(
      () => this.rule(),
      () =>
        this.unit.write(visit, async (writing) => {
          await photoBook.settle(writing, said, versionOfIfMatch(match));
          writing.says('Settled how photographs are kept', 'house');
        }),
    );
    return this.rule();
  }

  @Get(':photo')
  @Describe({ summary: 'What is known of a photograph' })
  async one(@Param('photo') id: string): Promise<Reply> {
    const photo = await photoInSight(this.read, this.clock, id);
    return answer(photo, 200, etagOf(photo.version));
  }

  @Get(':photo/picture')
  @Describe({ summary: 'The photograph itself, a JPEG' })
  async picture(@Param('photo') id: string): Promise<Reply> {
    await photoInSight(this.read, this.clock, id);
    return file(
      await photoBook.picture(this.read, id, 'whole'),
      'image/jpeg',
      `photograph-${id.slice(-6)}.jpg`,
      true,
    );
  }

  @Put(':photo/consent')
  @Describe({ summary: 'Says anew what was agreed about a photograph', examples: AGREED })
  async consent(
    @Param('photo') id: string,
    @Body({ schema: ConsentFields }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(ConsentFields, body);
    await presentAs(
      () => this.one(id),
      () => correctConsent(this.unit, this.clock, visit, id, said, versionOfIfMatch(match)),
    );
    return this.one(id);
  }

  @Delete(':photo')
  @Describe({ summary: 'Takes a photograph away for good' })
  async takeAway(@Param('photo') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await takeAwayPhoto(this.unit, visit, id);
    return answer(value);
  }
}
