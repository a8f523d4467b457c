import { Module } from '@nestjs/common';
import { Door } from './door.js';
import { GuessThrottle } from './guess-throttle.js';
import { SignInController } from './sign-in.controller.js';

@Module({ controllers: [SignInController], providers: [Door, GuessThrottle], exports: [Door] })
export class SignInModule {}
