import { type ArgumentsHost, Catch, type ExceptionFilter, Injectable } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { Templates } from '../../printing/templates/templates.js';
import { freshForm } from '../../web/forms/form.js';
import { typedOf } from '../../web/forms/typed.js';
import { Surroundings } from '../../web/manners/surroundings.js';
import type { Request } from '../../web/visit.js';
import { NotOpenedYet, NotSignedIn } from './not-signed-in.js';

/** Forms whose fields are secrets: they are typed again, never carried through a page. */
const SECRETS = /\/passphrase(\?|$)|^\/house\/people/;

/** Sends strangers to the door; a form that was being sent comes along and is given back after signing in. */
@Catch(NotSignedIn, NotOpenedYet)
@Injectable()
export class NotSignedInFilter implements ExceptionFilter {
  constructor(
    private readonly templates: Templates,
    private readonly surroundings: Surroundings,
  ) {}

  async catch(error: NotSignedIn | NotOpenedYet, host: ArgumentsHost): Promise<void> {
    const request = host.switchToHttp().getRequest<Request>();
    const response = host.switchToHttp().getResponse<FastifyReply>();
    response.header('cache-control', 'no-store');
    if (request.url.startsWith('/api/')) {
      response
        .status(401)
        .header('www-authenticate', 'Bearer')
        .type('application/problem+json; charset=utf-8');
      const detail = 'Send the API token from the House room as “Authorization: Bearer …”.';
      await response.send(
        JSON.stringify({
          type: 'about:blank',
          title: 'Not signed in',
          status: 401,
          code: 'not-signed-in',
          detail,
        }),
      );
      return;
    }
    if (error instanceof NotOpenedYet) {
      await response.status(303).header('location', '/first-start').send('');
      return;
    }
    if (request.method === 'GET' || request.method === 'HEAD') {
      const back = request.url === '/' ? '' : `?back=${encodeURIComponent(request.url)}`;
      await response.status(303).header('location', `/sign-in${back}`).send('');
      return;
    }
    const form = freshForm('/sign-in', {
      back: pathOf(request.headers.referer),
      kept: SECRETS.test(request.url) ? '' : JSON.stringify(typedOf(request.body)),
    });
    const words = { title: 'Sign in', room: 'none' as const, form, ranOut: true };
    response.status(401).type('text/html; charset=utf-8');
    await response.send(
      this.templates.render('sign-in/sign-in', await this.surroundings.around(request, words)),
    );
  }
}

/** The page the form stood on, on this server. */
const pathOf = (referer: string | undefined): string => {
  try {
    const url = new URL(referer ?? '');
    return url.pathname + url.search;
  } catch {
    return '/';
  }
};
