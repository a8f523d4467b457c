import { Module } from '@nestjs/common';
import { DevicesApi } from './devices.api.js';
import { DevicesController } from './devices.controller.js';
import { Door } from './door.js';
import { GuessThrottle } from './guess-throttle.js';
import { People } from './people/keep-person.js';
import { PairController } from './people/pair.controller.js';
import { Pairing } from './people/pairing.js';
import { PeopleApi } from './people/people.api.js';
import { PeopleController } from './people/people.controller.js';
import { SignInController } from './sign-in.controller.js';

@Module({
  controllers: [SignInController, PairController, DevicesController, DevicesApi, PeopleController, PeopleApi],
  providers: [Door, GuessThrottle, Pairing, People],
  exports: [Door],
})
export class SignInModule {}
