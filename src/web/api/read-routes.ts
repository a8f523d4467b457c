import { RequestMethod } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA, ROUTE_ARGS_METADATA } from '@nestjs/common/constants.js';
import { RouteParamtypes } from '@nestjs/common/enums/route-paramtypes.enum.js';
import { type DiscoveryService, MetadataScanner } from '@nestjs/core';
import type { z } from 'zod';
import { OPEN } from '../visit.js';
import { DESCRIBED, type Described } from './describe.js';

/** One way of asking, as its controller declares it. */
export type Route = {
  /** `get`, `post` and so on. */
  readonly method: string;
  /** `/api/clients/{id}`. */
  readonly path: string;
  readonly operationId: string;
  readonly name: string;
  readonly isOpen: boolean;
  readonly query: readonly string[];
  readonly headers: readonly string[];
  readonly takesBody: boolean;
  readonly body: z.ZodType | undefined;
  readonly described: Described | undefined;
};

type Argument = { readonly data?: unknown; readonly schema?: z.ZodType };
type Class = { readonly name: string; readonly prototype: object };

const texts = (value: unknown): string[] => [value ?? ''].flat().map(String);

const joined = (base: string, own: string): string =>
  `/${[base, own]
    .flatMap((part) => part.split('/'))
    .filter((step) => step !== '')
    .join('/')}`.replaceAll(/:(\w+)/g, '{$1}');

const argumentsOf = (from: Class, name: string): { kind: number; argument: Argument }[] =>
  Object.entries(
    (Reflect.getMetadata(ROUTE_ARGS_METADATA, from, name) ?? {}) as Record<string, Argument>,
  ).map(([key, argument]) => ({ kind: Number(key.split(':')[0]), argument }));

const routesOf = (from: Class, name: string): Route[] => {
  const handler = (from.prototype as Record<string, object>)[name]!;
  const method: RequestMethod | undefined = Reflect.getMetadata(METHOD_METADATA, handler);
  if (method === undefined) return [];
  const given = argumentsOf(from, name);
  const named = (kind: RouteParamtypes): string[] =>
    given.flatMap(({ kind: own, argument }) =>
      own === kind && typeof argument.data === 'string' ? [argument.data] : [],
    );
  const body = given.find(({ kind }) => kind === RouteParamtypes.BODY);
  return texts(Reflect.getMetadata(PATH_METADATA, from)).flatMap((base) =>
    texts(Reflect.getMetadata(PATH_METADATA, handler)).map((own) => ({
      method: RequestMethod[method].toLowerCase(),
      path: joined(base, own),
      operationId: `${from.name}.${name}`,
      name,
      isOpen: [handler, from].some((each) => Reflect.getMetadata(OPEN, each) === true),
      query: named(RouteParamtypes.QUERY),
      headers: named(RouteParamtypes.HEADERS),
      takesBody: body !== undefined,
      body: body?.argument.schema,
      described: Reflect.getMetadata(DESCRIBED, handler),
    })),
  );
};

/** Every route under /api, read off the controllers themselves, so that none is forgotten. */
export const readRoutes = (discovery: DiscoveryService): Route[] => {
  const scanner = new MetadataScanner();
  return discovery
    .getControllers()
    .map(({ metatype }) => metatype as Class | null)
    .filter((from): from is Class => from?.prototype !== undefined)
    .flatMap((from) => scanner.getAllMethodNames(from.prototype).flatMap((name) => routesOf(from, name)))
    .filter(({ path }) => path.startsWith('/api/'));
};
