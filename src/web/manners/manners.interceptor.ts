import { type CallHandler, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import '@fastify/cookie';
import { firstValueFrom, from, type Observable } from 'rxjs';
import { Templates } from '../../printing/templates/templates.js';
import { isReply, type Reply } from '../reply.js';
import type { Request } from '../visit.js';
import { MENDING, mendingOf } from './mending.js';
import { OnceOnly, withDone } from './once-only.js';
import { cookieBounds, SESSION, sessionCookieName } from './session-cookie.js';
import { Surroundings } from './surroundings.js';

/** Turns what a controller says into HTTP: pages, 303, files, JSON; and sees to it that a second press does nothing twice. */
@Injectable()
export class Manners implements NestInterceptor {
  constructor(
    private readonly templates: Templates,
    private readonly surroundings: Surroundings,
    private readonly onceOnly: OnceOnly,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<Request>();
    const response = context.switchToHttp().getResponse<FastifyReply>();
    const act = (): Promise<unknown> => firstValueFrom(next.handle(), { defaultValue: undefined });
    const once = request.visit?.once;
    const said = once ? this.onceOnly.run(once, act) : act();
    return from(said.then((result) => this.say(request, response, result)));
  }

  private async say(request: Request, response: FastifyReply, result: unknown): Promise<unknown> {
    if (!isReply(result)) {
      response.status(200).header('cache-control', 'no-store').type('application/json; charset=utf-8');
      return JSON.stringify(result ?? null);
    }
    response.header('cache-control', 'no-store');
    return this.sayReply(request, response, result);
  }

  private async sayReply(request: Request, response: FastifyReply, said: Reply): Promise<unknown> {
    switch (said.is) {
      case 'page':
        response.status(said.status).type('text/html; charset=utf-8');
        keepMending(request, response);
        return this.templates.render(said.template, await this.surroundings.around(request, said.words));
      case 'part':
        response.status(said.status).type('text/html; charset=utf-8');
        return this.templates.renderBare(said.template, said.words);
      case 'elsewhere':
        for (const [name, cookie] of Object.entries(said.cookies ?? {}))
          setCookie(request, response, name, cookie);
        response.status(303).header('location', said.act ? withDone(said.url, said.act) : said.url);
        return '';
      case 'file': {
        const kind = said.inline ? 'inline' : 'attachment';
        response.type(said.type).header('content-disposition', dispositionOf(kind, said.name));
        return said.bytes instanceof Uint8Array ? Buffer.from(said.bytes) : said.bytes;
      }
      case 'answer':
        response.status(said.status).headers(said.headers ?? {});
        response.type('application/json; charset=utf-8');
        return JSON.stringify(said.body ?? null);
    }
  }
}

/** Remembers for an hour which draft waits, until it is looked at again. */
const keepMending = (request: Request, response: FastifyReply): void => {
  const { keep } = mendingOf(request);
  if (keep === undefined) return;
  setCookie(request, response, MENDING, keep === null ? null : { value: keep, days: 1 / 24 });
};

const setCookie = (
  request: Request,
  response: FastifyReply,
  name: string,
  cookie: { value: string; days: number } | null,
): void => {
  const bound = cookieBounds(request);
  const own = name === SESSION ? sessionCookieName(request) : name;
  if (cookie) response.setCookie(own, cookie.value, { ...bound, maxAge: cookie.days * 86_400 });
  for (const gone of cookie ? [] : new Set([own, name])) response.clearCookie(gone, bound);
};

/** @see RFC 6266: a plain name for old programs, the exact one in UTF-8 */
const dispositionOf = (kind: 'inline' | 'attachment', name: string | undefined): string => {
  if (!name) return kind;
  const plain = name.replace(/[^\w.-]+/g, '-');
  return `${kind}; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name)}`;
};
