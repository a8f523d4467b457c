import { Body, Controller, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { z } from 'zod';
import { newStudio } from '../../domain/house/new-studio.js';
import type { Studio } from '../../domain/house/studio.js';
import { Conflict } from '../../domain/kernel/errors.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { HomeZone } from '../../storage/home-zone.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { presentAs } from '../../web/api/present-as.js';
import { currency, line } from '../../web/fields/fields.js';
import { sentKit } from '../../web/fields/kits.js';
import { parse } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, created, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { changeHouse } from './change-house.js';
import { openHouse } from './first-run/open-house.js';
import { type Section, sentShow } from './sections/section.js';
import { sectionAt, sections } from './sections/sections.js';

const OpenSent = z.strictObject({
  name: line('Give the studio its name.', 200),
  maker: line('Say who makes.', 200),
  currency: currency(),
});

/** The house for programs: every subject by its name. */
@Controller('api/house')
export class HouseApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly home: HomeZone,
  ) {}

  @Get()
  async house(): Promise<Reply> {
    const studio = await studioBook.the(this.read);
    const said = Object.fromEntries(
      sections.map((section) => [section.path, section.values(studio, sentShow)]),
    );
    return answer({ ...said, firstRunDone: studio.firstRunDone ?? null }, 200, etagOf(studio.version));
  }

  /** Opens the house, once. */
  @Post()
  async open(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(OpenSent, body);
    if (await studioBook.maybe(this.read)) throw new Conflict('The house is open already.', 'already-open');
    await openHouse(this.unit, visit, newStudio({ ...said, zone: this.home.zone }));
    return created('/api/house', said);
  }

  @Get(':section')
  async section(@Param('section') path: string): Promise<Reply> {
    return shown(sectionAt(path), await studioBook.the(this.read));
  }

  @Put(':section')
  async change(
    @Param('section') path: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const section = sectionAt(path);
    const { value } = await presentAs(
      () => this.section(path),
      () =>
        changeHouse(
          this.unit,
          visit,
          section.title,
          (studio) => parse(section.schema(sentKit(studio.identity.currency), studio), body),
          versionOfIfMatch(match),
        ),
    );
    return shown(section, value);
  }
}

const shown = (section: Section, studio: Studio): Reply =>
  answer(section.values(studio, sentShow), 200, etagOf(studio.version));
