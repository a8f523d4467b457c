import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { NotAllowed } from '../../domain/kernel/errors.js';
import { typedOf } from '../../web/forms/typed.js';
import { log } from '../../web/log.js';
import { onceKeyOf } from '../../web/manners/once-only.js';
import { sessionSecretOf } from '../../web/manners/session-cookie.js';
import { OPEN, type Request, type SignedIn } from '../../web/visit.js';
import { mayGo } from '../../web/who-may.js';
import { Door } from './door.js';
import { NotOpenedYet, NotSignedIn } from './not-signed-in.js';

const CHANGES = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);

/** Lets in whoever is signed in, by cookie or by token, and notes the hand on the request. */
@Injectable()
export class SignInGuard implements CanActivate {
  constructor(
    private readonly door: Door,
    private readonly reflector: Reflector,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<Request>();
    const visit = await this.visitOf(request);
    if (visit) request.visit = withOnce(visit, request);
    const open = this.reflector.getAllAndOverride<boolean | undefined>(OPEN, [
      context.getHandler(),
      context.getClass(),
    ]);
    if (open) return true;
    if (visit && !mayGo(visit, request.method, request.url)) {
      const { method, routeOptions } = request;
      log.warn(
        { account: visit.who.id, method, route: routeOptions.url },
        'somebody went where they may not',
      );
      throw new NotAllowed('This is not yours to see or to change. Ask the owner of the studio.');
    }
    if (visit) return true;
    if (!(await this.door.isOwned())) throw new NotOpenedYet();
    throw new NotSignedIn();
  }

  private async visitOf(request: Request): Promise<SignedIn | undefined> {
    const { authorization } = request.headers;
    if (authorization?.startsWith('Bearer ')) return this.door.byToken(authorization.slice(7).trim());
    const cookie = sessionSecretOf(request);
    return cookie ? this.door.byCookie(cookie) : undefined;
  }
}

/** The once-only key: a form's hidden field, or a program's Idempotency-Key. */
const withOnce = (visit: SignedIn, request: Request): SignedIn => {
  if (!CHANGES.has(request.method)) return visit;
  const isApi = request.url.startsWith('/api/');
  const header = request.headers['idempotency-key'];
  const key = isApi ? (typeof header === 'string' ? header : undefined) : typedOf(request.body).once;
  if (!key) return visit;
  return { ...visit, once: onceKeyOf(key, visit.who.id, request.method, request.url, request.body) };
};
