import {
  type CanActivate,
  type ExecutionContext,
  Injectable,
  UnsupportedMediaTypeException,
} from '@nestjs/common';
import type { Request } from '../visit.js';

/** Refuses a body that is not said to be JSON, with 415. */
@Injectable()
export class JsonOnly implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { headers } = context.switchToHttp().getRequest<Request>();
    const type = headers['content-type']?.split(';')[0]?.trim().toLowerCase();
    if (type === 'application/json' || type?.endsWith('+json')) return true;
    throw new UnsupportedMediaTypeException('Send JSON, and say so: content-type: application/json.');
  }
}
