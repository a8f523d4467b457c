import { Controller, Get, Param, Post } from '@nestjs/common';
import { NotAllowed } from '../../../domain/kernel/errors.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { EXPORT, exportPage } from './export.page.js';
import { Exports } from './exports.js';

/** An export holds everything, what others may not see included. @throws NotAllowed */
const mustBeOwner = (hand: SignedIn): void => {
  if (hand.role !== 'owner') throw new NotAllowed('Only the owner of the studio may export it.');
};

/** Begins an export; the empty write takes the once-only key. */
const beginExport = async (unit: UnitOfWork, exports: Exports, hand: SignedIn): Promise<void> => {
  mustBeOwner(hand);
  await unit.write(hand, async () => undefined);
  exports.begin();
};

/** Everything as open files: begin one, see how far it has come, take it home. */
@Controller('house/export')
export class ExportController {
  constructor(
    private readonly exports: Exports,
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async look(@Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    const { identity } = await studioBook.the(this.read);
    return page(
      'house/export/export',
      exportPage(this.exports.now(), await this.exports.written(), identity.zone),
    );
  }

  @Post()
  async begin(@Hand() hand: SignedIn): Promise<Reply> {
    await beginExport(this.unit, this.exports, hand);
    return seeOther(EXPORT);
  }

  @Get(':name')
  async take(@Param('name') name: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return file(await this.exports.read(name), 'application/zip', name);
  }
}

/** The same for programs. */
@Controller('api/house/export')
export class ExportApi {
  constructor(
    private readonly exports: Exports,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  @Describe({ summary: 'How far an export has come, and the last one that was written' })
  async look(@Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return answer({ now: this.exports.now() ?? null, written: (await this.exports.written()) ?? null });
  }

  @Post()
  @Describe({
    summary: 'Begin an export of everything as open files; look at how far it has come afterwards',
  })
  async begin(@Hand() hand: SignedIn): Promise<Reply> {
    await beginExport(this.unit, this.exports, hand);
    return answer({ now: this.exports.now() ?? null }, 202, { location: '/api/house/export' });
  }

  @Get(':name')
  @Describe({ summary: 'An export as a file' })
  async take(@Param('name') name: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return file(await this.exports.read(name), 'application/zip', name);
  }
}
