import { BenchModule } from './bench/bench.module.js';
import { ClientsModule } from './clients/clients.module.js';
import { ClothRoomModule } from './cloth-room/cloth-room.module.js';
import { CommissionsModule } from './commissions/commissions.module.js';
import { FittingsModule } from './commissions/fittings/fittings.module.js';
import { QuotesModule } from './commissions/quotes/quotes.module.js';
import { FindModule } from './find/find.module.js';
import { HistoryModule } from './history/history.module.js';
import { BackupModule } from './house/backup/backup.module.js';
import { GalleryModule } from './house/gallery/gallery.module.js';
import { HouseModule } from './house/house.module.js';
import { LessonsModule } from './lessons/lessons.module.js';
import { PapersModule } from './papers/papers.module.js';
import { RatesModule } from './rates/rates.module.js';
import { WorkOutModule } from './work-out/work-out.module.js';

/** Every room of the house. */
export const rooms = [
  BenchModule,
  ClientsModule,
  CommissionsModule,
  FittingsModule,
  ClothRoomModule,
  FindModule,
  HistoryModule,
  BackupModule,
  QuotesModule,
  PapersModule,
  RatesModule,
  LessonsModule,
  HouseModule,
  GalleryModule,
  WorkOutModule,
];
