import { Module } from '@nestjs/common';
import { PhotosApi } from './photos.api.js';
import { PhotosController } from './photos.controller.js';
import { PhotoRuleController } from './rule.controller.js';

@Module({ controllers: [PhotosController, PhotoRuleController, PhotosApi] })
export class PhotosModule {}
