import { type CallHandler, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import { from, type Observable, of, switchMap } from 'rxjs';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { seeOther } from '../reply.js';
import type { Request } from '../visit.js';

/** What can be asked for before the house has a name. */
const BEFORE = /^\/(first-run|first-start|sign-in|sign-out|api|assets|history)\b/;

/** Until the house is opened, every page leads to the first questions. */
@Injectable()
export class FirstRunFirst implements NestInterceptor {
  private opened = false;

  constructor(private readonly read: ReadSide) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<Request>();
    const isPage = request.method === 'GET' && request.visit !== undefined && !BEFORE.test(request.url);
    if (this.opened || !isPage) return next.handle();
    return from(this.isOpened()).pipe(
      switchMap((opened) => (opened ? next.handle() : of(seeOther('/first-run')))),
    );
  }

  private async isOpened(): Promise<boolean> {
    this.opened = (await studioBook.maybe(this.read)) !== undefined;
    return this.opened;
  }
}
