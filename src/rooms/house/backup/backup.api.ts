import { Controller, Get, Param, Post } from '@nestjs/common';
import { Backups } from '../../../storage/backup/backups.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, created, file, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { makeBackup, mustBeOwner } from './make-backup.js';

/** Backups for programs, such as one that fetches one every night. */
@Controller('api/backups')
export class BackupApi {
  constructor(
    private readonly backups: Backups,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  @Describe({
    summary: 'The backups there are, when the last good one was made, and what went wrong since',
  })
  async list(@Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return answer({ items: await this.backups.list(), ...(await this.backups.standing()) });
  }

  @Post()
  @Describe({ summary: 'Make a backup now; it is checked before it counts' })
  async make(@Hand() hand: SignedIn): Promise<Reply> {
    const backup = await makeBackup(this.unit, this.backups, hand);
    return created(`/api/backups/${backup.name}`, backup);
  }

  @Get(':name')
  @Describe({ summary: 'A backup as a file' })
  async take(@Param('name') name: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustBeOwner(hand);
    return file(await this.backups.read(name), 'application/octet-stream', name);
  }
}
