import { Controller, Get } from '@nestjs/common';
import { DiscoveryService } from '@nestjs/core';
import { answer, type Reply } from '../reply.js';
import { Describe } from './describe.js';
import { documentOf } from './document.js';
import { readRoutes } from './read-routes.js';

/** The description of the JSON interface for programs. */
@Controller('api/openapi.json')
export class OpenApiController {
  private document: object | undefined;

  constructor(private readonly discovery: DiscoveryService) {}

  @Get()
  @Describe({ summary: 'This document' })
  describe(): Reply {
    this.document ??= documentOf(readRoutes(this.discovery));
    return answer(this.document);
  }
}
