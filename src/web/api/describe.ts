import { SetMetadata } from '@nestjs/common';

/** What the OpenAPI document says of a route beside what its code already shows. */
export type Described = {
  /** One line. */
  readonly summary: string;
  readonly description?: string;
  /** Bodies that work, by name. */
  readonly examples?: Readonly<Record<string, unknown>>;
};

export const DESCRIBED = 'described for the OpenAPI document';

/**
 * Says of a route what the OpenAPI document tells about it. The body's schema is not said here: it is read off
 * `@Body({ schema })`.
 */
export const Describe = (words: Described): MethodDecorator => SetMetadata(DESCRIBED, words);
