import type { FastifyRequest } from 'fastify';

/** What replies and older browsers call it. */
export const SESSION = 'bastings';

type Asked = Pick<FastifyRequest, 'headers' | 'protocol'>;

/**
 * The name the browser keeps the sign-in under. Cookies know no port: two studios on one computer would sign each other out,
 * so each is named by the port it was asked at. With TLS the name binds it to this host as well.
 *
 * @see RFC 6265bis, the __Host- prefix
 */
export const sessionCookieName = ({ headers, protocol }: Asked): string => {
  const port = /:(\d{1,5})$/.exec(headers.host ?? '')?.[1];
  const own = port && port !== '80' && port !== '443' ? `${SESSION}-${port}` : SESSION;
  return protocol === 'https' ? `__Host-${own}` : own;
};

/** No script reads it, no other site sends it along, and with TLS it never goes without. */
export const cookieBounds = ({ protocol }: Pick<Asked, 'protocol'>) =>
  ({ path: '/', httpOnly: true, sameSite: 'lax', secure: protocol === 'https' }) as const;

/** The secret of the sign-in. Without TLS one kept under the older name still counts, so that nobody is signed out by an update. */
export const sessionSecretOf = (
  request: Asked & { readonly cookies: Readonly<Record<string, string | undefined>> },
): string | undefined =>
  request.cookies[sessionCookieName(request)] ||
  (request.protocol === 'https' ? undefined : request.cookies[SESSION]) ||
  undefined;
