import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR } from '@nestjs/core';
import { rooms } from '../rooms/rooms.js';
import type { Clock } from '../storage/clock.js';
import { FirstRunFirst } from '../web/manners/first-run-first.interceptor.js';
import { Manners } from '../web/manners/manners.interceptor.js';
import { TroubleFilter } from '../web/manners/trouble.filter.js';
import type { Config } from './config.js';
import { KeptModule } from './kept.module.js';
import { NotSignedInFilter } from './sign-in/not-signed-in.filter.js';
import { SignInGuard } from './sign-in/sign-in.guard.js';
import { SignInModule } from './sign-in/sign-in.module.js';

/** The whole house: what is kept, the door, the rooms, and the manners at every threshold. */
@Module({})
export class AppModule {
  static with(config: Config, clock?: Clock): DynamicModule {
    return {
      module: AppModule,
      imports: [KeptModule.with(config, clock), SignInModule, ...rooms],
      providers: [
        { provide: APP_GUARD, useClass: SignInGuard },
        { provide: APP_INTERCEPTOR, useClass: Manners },
        { provide: APP_INTERCEPTOR, useClass: FirstRunFirst },
        // The last filter named is asked first.
        { provide: APP_FILTER, useClass: TroubleFilter },
        { provide: APP_FILTER, useClass: NotSignedInFilter },
      ],
    };
  }
}
