import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { Trouble } from '../../domain/kernel/errors.js';
import { Backups } from '../../storage/backup/backups.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { typedKit } from '../../web/fields/kits.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { parseForm } from '../../web/forms/parse.js';
import { typedOf } from '../../web/forms/typed.js';
import { Listening, OVERHEARD } from '../../web/manners/listening.js';
import { page, part, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { standingWords } from './backup/standing-words.js';
import { changeHouse } from './change-house.js';
import { contentsPage, sectionPage, typedSection } from './house.page.js';
import { otherProfit } from './sections/pricing.js';
import { sectionAt } from './sections/sections.js';

/** The pages of the House room: a table of contents, and one page per subject. */
@Controller('house')
export class HouseController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly backups: Backups,
    private readonly listening: Listening,
  ) {}

  @Get()
  async contents(): Promise<Reply> {
    const studio = await studioBook.the(this.read);
    const standing = standingWords(await this.backups.standing(), studio.identity.zone);
    return page('house/contents', {
      ...contentsPage(studio, standing),
      overheard: this.listening.overheard
        ? `${OVERHEARD} Give it certificate files, or let it listen on this computer alone.`
        : '',
    });
  }

  @Get(':section')
  async form(@Param('section') path: string): Promise<Reply> {
    const [section, studio] = [sectionAt(path), await studioBook.the(this.read)];
    const form = freshForm(`/house/${path}`, typedSection(section, studio), studio.version);
    const { template, words } = sectionPage(section, studio, form);
    return page(template, words);
  }

  /** The profit said the other way round, while it is being typed. */
  @Post('pricing/other-profit')
  async otherProfit(@Body() body: unknown): Promise<Reply> {
    const studio = await studioBook.the(this.read);
    try {
      const said = parseForm(sectionAt('pricing').schema(typedKit(studio.identity), studio), typedOf(body));
      return part('house/other-profit', { otherProfit: otherProfit(said) });
    } catch (trouble) {
      if (!(trouble instanceof Trouble)) throw trouble;
      return part('house/other-profit', { otherProfit: '' });
    }
  }

  @Post(':section')
  change(@Param('section') path: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const [typed, section] = [typedOf(body), sectionAt(path)];
    return submit(
      typed,
      async () => {
        const { act } = await changeHouse(
          this.unit,
          visit,
          section.title,
          (studio) => parseForm(section.schema(typedKit(studio.identity), studio), typed),
          versionSeen(typed),
        );
        return seeOther(path === 'keys' ? '/house/people-and-devices' : '/house', act);
      },
      async (form) => sectionPage(section, await studioBook.the(this.read), form),
      async () => typedSection(section, await studioBook.the(this.read)),
    );
  }
}
