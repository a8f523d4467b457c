import { createParamDecorator, type ExecutionContext, SetMetadata } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Role } from '../domain/bench/person.js';
import type { Visit } from '../storage/session.js';

/** Somebody who is signed in, on this request. */
export type SignedIn = Visit & {
  readonly role: Role;
  /** May they see prices and addresses? The owner always may. */
  readonly seesPrices: boolean;
  readonly sessionId?: string;
  readonly tokenId?: string;
  readonly phoneId?: string;
};

/** The request as the house sees it. */
export type Request = FastifyRequest & { visit?: SignedIn; nonce?: string };

/** The hand that makes this request: `@Hand() visit: Visit`. */
export const Hand = createParamDecorator((_: unknown, context: ExecutionContext): SignedIn => {
  const visit = context.switchToHttp().getRequest<Request>().visit;
  if (!visit) throw new Error('This route is open to strangers and has no hand.');
  return visit;
});

export const OPEN = 'open to strangers';

/** A route that needs no sign-in. */
export const Open = (): MethodDecorator & ClassDecorator => SetMetadata(OPEN, true);
