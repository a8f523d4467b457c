import { Module } from '@nestjs/common';
import { DevicesApi } from './devices.api.js';
import { DevicesController } from './devices.controller.js';
import { Door } from './door.js';
import { GuessThrottle } from './guess-throttle.js';
import { SignInController } from './sign-in.controller.js';

@Module({
  controllers: [SignInController, DevicesController, DevicesApi],
  providers: [Door, GuessThrottle],
  exports: [Door],
})
export class SignInModule {}
