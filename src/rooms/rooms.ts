import { BenchModule } from './bench/bench.module.js';
import { CounterModule } from './bench/counter/counter.module.js';
import { OutworkModule } from './bench/outwork/outwork.module.js';
import { BenchPapersModule } from './bench/papers/papers.module.js';
import { PromisesModule } from './bench/promises/promises.module.js';
import { ClientsModule } from './clients/clients.module.js';
import { EnquiriesModule } from './clients/enquiries/enquiries.module.js';
import { ClothRoomModule } from './cloth-room/cloth-room.module.js';
import { CommissionsModule } from './commissions/commissions.module.js';
import { FittingsModule } from './commissions/fittings/fittings.module.js';
import { LandingModule } from './commissions/landing/landing.module.js';
import { QuotesModule } from './commissions/quotes/quotes.module.js';
import { ReckoningModule } from './commissions/reckoning/reckoning.module.js';
import { FindModule } from './find/find.module.js';
import { HelpModule } from './help/help.module.js';
import { HistoryModule } from './history/history.module.js';
import { BackupModule } from './house/backup/backup.module.js';
import { CalendarModule } from './house/calendar/calendar.module.js';
import { ExportModule } from './house/export/export.module.js';
import { GalleryModule } from './house/gallery/gallery.module.js';
import { HouseModule } from './house/house.module.js';
import { LessonsModule } from './lessons/lessons.module.js';
import { InvoicesModule } from './papers/invoices/invoices.module.js';
import { MoneyOutModule } from './papers/money-out/money-out.module.js';
import { PapersModule } from './papers/papers.module.js';
import { PaymentsModule } from './papers/payments/payments.module.js';
import { PhotosModule } from './photos/photos.module.js';
import { RatesModule } from './rates/rates.module.js';
import { WorkOutModule } from './work-out/work-out.module.js';

/** Every room of the house. */
export const rooms = [
  BenchModule,
  OutworkModule,
  CounterModule,
  BenchPapersModule,
  PromisesModule,
  ClientsModule,
  EnquiriesModule,
  CommissionsModule,
  FittingsModule,
  LandingModule,
  ReckoningModule,
  ClothRoomModule,
  FindModule,
  HelpModule,
  HistoryModule,
  BackupModule,
  ExportModule,
  QuotesModule,
  InvoicesModule,
  MoneyOutModule,
  PapersModule,
  PhotosModule,
  PaymentsModule,
  RatesModule,
  LessonsModule,
  CalendarModule,
  HouseModule,
  GalleryModule,
  WorkOutModule,
];
