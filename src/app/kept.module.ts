import { join } from 'node:path';
import {
  type DynamicModule,
  Global,
  Inject,
  Module,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import type { DataSource } from 'typeorm';
import { PdfPrinter } from '../printing/browser/pdf-printer.js';
import { Stationery } from '../printing/papers/stationery.js';
import { Templates } from '../printing/templates/templates.js';
import { Backups } from '../storage/backup/backups.js';
import { DailyRound } from '../storage/backup/daily-round.js';
import { studioBook } from '../storage/books/studio-book.js';
import { Clock, MachineClock } from '../storage/clock.js';
import { openForReading } from '../storage/connection/data-source.js';
import { HomeZone } from '../storage/home-zone.js';
import { IssuingTurn } from '../storage/issuing/issuing-turn.js';
import { lessonBook } from '../storage/lesson/lesson-book.js';
import { ExportPlace } from '../storage/moving/export/export-place.js';
import { ReadSide } from '../storage/read-side.js';
import { sweep } from '../storage/sweep.js';
import { UnitOfWork } from '../storage/unit-of-work.js';
import { KeptForms } from '../web/forms/kept-forms.js';
import { log } from '../web/log.js';
import { faultWords } from '../web/manners/fault-words.js';
import { Listening } from '../web/manners/listening.js';
import { OnceOnly } from '../web/manners/once-only.js';
import { Surroundings } from '../web/manners/surroundings.js';
import { backupsOf } from './commands/keep-safe.js';
import { type Config, isOverheard } from './config.js';
import { openKept } from './open-kept.js';

const WRITING = 'connection that writes';
const READING = 'connection that reads';

/** What every room stands on: the kept data, the clock, templates and the printer. */
@Global()
@Module({})
export class KeptModule implements OnApplicationBootstrap, OnApplicationShutdown {
  private sweeping: NodeJS.Timeout | undefined;

  constructor(
    @Inject(WRITING) private readonly writing: DataSource,
    @Inject(READING) private readonly reading: DataSource,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly printer: PdfPrinter,
    private readonly round: DailyRound,
  ) {}

  static with(config: Config, clock: Clock = new MachineClock()): DynamicModule {
    const shared = [
      { provide: Clock, useValue: clock },
      { provide: Listening, useValue: new Listening(isOverheard(config)) },
      { provide: HomeZone, useValue: new HomeZone(config.zone) },
      {
        provide: WRITING,
        useFactory: () => openKept(config),
      },
      // The reader is opened after the writer, which brings the tables up to date.
      { provide: READING, inject: [WRITING], useFactory: () => openForReading(config.home) },
      {
        provide: UnitOfWork,
        inject: [WRITING],
        useFactory: (source: DataSource) => new UnitOfWork(source, clock),
      },
      {
        provide: IssuingTurn,
        inject: [WRITING],
        useFactory: (source: DataSource) => new IssuingTurn(source),
      },
      { provide: ReadSide, inject: [READING], useFactory: (source: DataSource) => new ReadSide(source) },
      { provide: Backups, useFactory: () => backupsOf(config, clock) },
      {
        provide: DailyRound,
        inject: [Backups, ReadSide],
        useFactory: (backups: Backups, read: ReadSide) =>
          new DailyRound(
            backups,
            clock,
            async () => (await studioBook.maybe(read))?.identity.zone ?? config.zone,
            (error) => log.error({ error: faultWords(error) }, 'the daily backup was not made'),
          ),
      },
      {
        provide: ExportPlace,
        useFactory: () => new ExportPlace(config.home, join(config.dataDir, 'export')),
      },
      { provide: Templates, useFactory: () => new Templates(config.templates) },
      {
        provide: Stationery,
        inject: [Templates],
        useFactory: (templates: Templates) => new Stationery(templates, config.templates),
      },
      { provide: PdfPrinter, useFactory: () => new PdfPrinter() },
      KeptForms,
      OnceOnly,
      Surroundings,
    ];
    return { module: KeptModule, providers: shared, exports: shared };
  }

  async onApplicationBootstrap(): Promise<void> {
    await sweep(this.unit, this.clock.ticks());
    const again = () => void sweep(this.unit, this.clock.ticks()).catch(() => undefined);
    this.sweeping = setInterval(again, 86_400_000).unref();
  }

  async onApplicationShutdown(): Promise<void> {
    clearInterval(this.sweeping);
    await this.round.end();
    await this.unit.idle();
    await lessonBook.forget(this.reading);
    await this.printer.close();
    await this.reading.destroy();
    await this.writing.destroy();
  }
}
