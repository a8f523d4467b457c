// The least a server on this stack can take to start: Nest on Fastify with one route that says hello.
import 'reflect-metadata';
import { Controller, Get, Module } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter } from '@nestjs/platform-fastify';

class Hello {
  hello() {
    return 'hello';
  }
}
const described = Object.getOwnPropertyDescriptor(Hello.prototype, 'hello');
Get()(Hello.prototype, 'hello', described);
Controller()(Hello);
class Empty {}
Module({ controllers: [Hello] })(Empty);

const app = await NestFactory.create(Empty, new FastifyAdapter(), { logger: ['error', 'warn'] });
await app.listen(0, '127.0.0.1');
console.log(`address: http://127.0.0.1:${app.getHttpServer().address().port}`);
