import { Module } from '@nestjs/common';
import { LandingApi } from './landing.api.js';
import { LandingController } from './landing.controller.js';

@Module({ controllers: [LandingController, LandingApi] })
export class LandingModule {}
