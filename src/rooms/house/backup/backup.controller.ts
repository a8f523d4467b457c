import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { Backups } from '../../../storage/backup/backups.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { backupPage } from './backup.page.js';
import { makeBackup, mustBeOwner } from './make-backup.js';
import { standingWords } from './standing-words.js';

/** Backups: make one now, see what there is, take one home. */
@Controller('house/backup')
export class BackupController {
  constructor(
    private readonly backups: Backups,
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(@Hand() hand: SignedIn, @Query('made') made = ''): Promise<Reply> {
    mustBeOwner(hand);
    const { identity } = await studioBook.the(this.read);
    const standing = standingWords(await this.backups.standing(), identity.zone);
    return page(
      'house/backup',
      backupPage(await this.backups.list(), this.backups, standing, identity.zone, made),
    );
  }

  @Post()
  async make(@Hand() hand: SignedIn): Promise<Reply> {
    const { name } = await makeBackup(this.unit, this.backups, hand);
    return seeOther(`/house/backup?made=${encodeURIComponent(name)}`);
  }

  @Get(':name')
  async take(@Param('name') name: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return file(await this.backups.read(name), 'application/octet-stream', name);
  }
}
