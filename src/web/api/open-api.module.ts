import { Module } from '@nestjs/common';
import { DiscoveryModule } from '@nestjs/core';
import { OpenApiController } from './open-api.controller.js';

@Module({ imports: [DiscoveryModule], controllers: [OpenApiController] })
export class OpenApiModule {}
