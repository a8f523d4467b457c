import type { Readable } from 'node:stream';
import type { PageModel } from '../printing/templates/page-model.js';

/** What a page's own code says; the surroundings (studio, who is signed in, nonce, notice) are put round it on the way out. */
export type PageWords = Partial<PageModel> & Pick<PageModel, 'title' | 'room'>;

/** What happens next, said by a controller; one interceptor makes HTTP of it. */
export type Reply =
  | { readonly is: 'page'; readonly template: string; readonly words: PageWords; readonly status: number }
  | { readonly is: 'part'; readonly template: string; readonly words: object; readonly status: number }
  | {
      readonly is: 'elsewhere';
      readonly url: string;
      readonly act?: string | undefined;
      readonly cookies?: Cookies;
    }
  | {
      readonly is: 'file';
      readonly bytes: Uint8Array | string | Readable;
      readonly type: string;
      readonly name?: string;
      readonly inline?: boolean;
    }
  | {
      readonly is: 'answer';
      readonly body: unknown;
      readonly status: number;
      readonly headers?: Record<string, string>;
      /** Holds a secret that is shown once only: it is not kept for a request that is sent again. */
      readonly secret?: boolean;
    };

export type Cookies = Record<string, { readonly value: string; readonly days: number } | null>;

const REPLY = Symbol('reply');
const reply = <R extends Reply>(said: R): R => Object.defineProperty(said, REPLY, { value: true });

export const isReply = (value: unknown): value is Reply =>
  typeof value === 'object' && value !== null && REPLY in value;

/** A whole page. */
export const page = (template: string, words: PageWords, status = 200): Reply =>
  reply({ is: 'page', template, words, status });

/** A piece of a page, for a frame that is replaced in place. */
export const part = (template: string, words: object, status = 200): Reply =>
  reply({ is: 'part', template, words, status });

/** After a change: 303 to where its result can be seen, with what was done said there and a way to undo it. */
export const seeOther = (url: string, act?: string, cookies?: Cookies): Reply =>
  reply({ is: 'elsewhere', url, act, cookies });

/** Bytes to look at or to keep; as a stream where they may be many. */
export const file = (
  bytes: Uint8Array | string | Readable,
  type: string,
  name?: string,
  inline = false,
): Reply => reply({ is: 'file', bytes, type, name, inline });

/** JSON for programs. */
export const answer = (body: unknown, status = 200, headers?: Record<string, string>): Reply =>
  reply({ is: 'answer', body, status, headers });

/** JSON with a secret that is shown this once: sent again, the request is told that it was done. */
export const createdSecret = (url: string, body: unknown): Reply =>
  reply({ is: 'answer', body, status: 201, headers: { location: url }, secret: true });

/** JSON for a thing that was made: 201 with its address. */
export const created = (url: string, body: unknown): Reply => answer(body, 201, { location: url });
