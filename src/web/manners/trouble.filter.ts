import { randomUUID } from 'node:crypto';
import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException, Injectable } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { Invalid, NotAllowed, NotFound, Trouble } from '../../domain/kernel/errors.js';
import { Templates } from '../../printing/templates/templates.js';
import { log } from '../log.js';
import type { Request } from '../visit.js';
import { faultWords } from './fault-words.js';
import { type Problem, problemOf } from './problem.js';
import { Surroundings } from './surroundings.js';

/** What Fastify itself refuses before a room sees it. */
const UNREADABLE: Readonly<Record<number, readonly [code: string, sentence: string]>> = {
  400: ['malformed', 'The body is not what its content type says it is.'],
  413: ['too-large', 'This is larger than the program takes in one request.'],
  415: ['wrong-content-type', 'Send the body as application/json.'],
};

/** Every error on its way out: a page for people, RFC 9457 for programs. A bug shows a reference number and nothing else. */
@Catch()
@Injectable()
export class TroubleFilter implements ExceptionFilter {
  constructor(
    private readonly templates: Templates,
    private readonly surroundings: Surroundings,
  ) {}

  async catch(error: unknown, host: ArgumentsHost): Promise<void> {
    const request = host.switchToHttp().getRequest<Request>();
    const response = host.switchToHttp().getResponse<FastifyReply>();
    const problem = this.problem(error, request);
    response.status(problem.status).header('cache-control', 'no-store');
    if (problem.status === 401) response.header('www-authenticate', 'Bearer');
    if (request.url.startsWith('/api/') || request.url === '/api') {
      response.type('application/problem+json; charset=utf-8');
      await response.send(JSON.stringify(problem));
      return;
    }
    response.type('text/html; charset=utf-8');
    await response.send(await this.pageOf(problem, request));
  }

  private problem(error: unknown, request: Request): Problem {
    if (error instanceof Trouble) return problemOf(error, request.headers['if-match'] !== undefined);
    const status = httpStatusOf(error);
    if (status === 404) return problemOf(new NotFound('page'));
    if (status === 403) return problemOf(new NotAllowed('This is not yours to do.'));
    if (status !== undefined && status < 500) {
      const [code, sentence] = UNREADABLE[status] ?? ['unreadable', 'This request could not be read.'];
      return { ...problemOf(new Invalid(sentence, [], code)), status };
    }
    const reference = randomUUID().slice(0, 8);
    log.error({ reference, error: faultWords(error) }, 'a bug showed');
    return { type: 'about:blank', title: 'Something broke here', status: 500, code: 'bug', reference };
  }

  private async pageOf(problem: Problem, request: Request): Promise<string> {
    const words = {
      title: problem.title,
      room: 'none' as const,
      sentence:
        problem.detail ??
        `This is a fault of the program, not yours. Nothing of what you sent was kept half. Its reference is ${problem.reference}.`,
      details: (problem.errors ?? []).map(({ detail }) => detail),
    };
    try {
      return this.templates.render('trouble', await this.surroundings.around(request, words));
    } catch (fault) {
      log.error({ error: faultWords(fault) }, 'the page of an error could not be drawn');
      return `<!doctype html><html lang="en"><title>Something broke here</title><p>Something broke here.</p></html>`;
    }
  }
}

const httpStatusOf = (error: unknown): number | undefined => {
  if (error instanceof HttpException) return error.getStatus();
  const status = (error as { statusCode?: unknown } | undefined)?.statusCode;
  return typeof status === 'number' ? status : undefined;
};
