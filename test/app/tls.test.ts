import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect, type SecureVersion } from 'node:tls';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCertificate } from '../../src/app/certificate.js';
import { OWNER, openTestStudio, type TestStudio } from '../support/studio.js';

const file = (name: string) => join(import.meta.dirname, 'tls', name);
const FILES = { cert: file('localhost.crt'), key: file('localhost.key') };

let studio: TestStudio;
let port: number;
beforeAll(async () => {
  studio = await openTestStudio({ TLS_CERT: FILES.cert, TLS_KEY: FILES.key });
  port = Number(new URL(await studio.listen()).port);
});
afterAll(() => studio.close());

type Answer = { status: number | undefined; headers: Record<string, string | string[] | undefined> };

const ask = (method: string, path: string, body = ''): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const asked = request(
      {
        ...{ host: '127.0.0.1', port, method, path, rejectUnauthorized: false },
        headers: {
          'content-type': 'application/x-www-form-urlencoded',
          'sec-fetch-site': 'same-origin',
          host: 'studio.example',
        },
      },
      (answer) => {
        answer.resume();
        answer.on('end', () => resolve({ status: answer.statusCode, headers: answer.headers }));
      },
    );
    asked.on('error', reject);
    asked.end(body);
  });

/** The version that server and client agree on; what went wrong where they agree on none. */
const agreed = (most: SecureVersion): Promise<string> =>
  new Promise((resolve) => {
    const socket = connect({
      ...{ host: '127.0.0.1', port, rejectUnauthorized: false, minVersion: 'TLSv1', maxVersion: most },
      // Without this, newer builds of OpenSSL refuse the old versions on the client's side already.
      ciphers: 'DEFAULT:@SECLEVEL=0',
    });
    socket.once('secureConnect', () => {
      resolve(socket.getProtocol() ?? 'none');
      socket.end();
    });
    socket.once('error', (error) => resolve((error as NodeJS.ErrnoException).code ?? error.message));
  });

describe('with certificate files', () => {
  it('pages go by TLS and say that the site is never to be asked without it', async () => {
    const { status, headers } = await ask('GET', '/sign-in');
    expect(status).toBe(200);
    expect(headers['strict-transport-security']).toMatch(/^max-age=31536000; includeSubDomains$/i);
  });

  it('the sign-in is kept under a name that binds it to this host, and never goes without TLS', async () => {
    const form = new URLSearchParams({ name: OWNER.name, passphrase: OWNER.passphrase });
    const { status, headers } = await ask('POST', '/sign-in', form.toString());
    expect(status).toBe(303);
    const [cookie = ''] = headers['set-cookie'] as string[];
    expect(cookie).toMatch(/^__Host-bastings=/);
    for (const bound of ['Secure', 'HttpOnly', 'SameSite=Lax', 'Path=/']) expect(cookie).toContain(bound);
    expect(cookie).not.toMatch(/domain=/i);
  });

  it('only TLS 1.2 and 1.3 are spoken', async () => {
    expect(await agreed('TLSv1.3')).toBe('TLSv1.3');
    expect(await agreed('TLSv1.2')).toBe('TLSv1.2');
    for (const old of ['TLSv1.1', 'TLSv1'] as const) expect(await agreed(old)).not.toMatch(/^TLSv1/);
  });

  it('without TLS nothing is answered there', async () => {
    await expect(fetch(`http://127.0.0.1:${port}/sign-in`)).rejects.toThrow();
  });
});

describe('certificate files that cannot be used', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-tls-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const now = '2027-01-01T00:00:00.000Z';

  it('are named, with what to do', () => {
    const no = join(folder, 'none.pem');
    expect(() => readCertificate({ ...FILES, cert: no }, now)).toThrow(`TLS_CERT: the file ${no}`);
    expect(() => readCertificate({ ...FILES, key: no }, now)).toThrow(`TLS_KEY: the file ${no}`);
    writeFileSync(no, 'thimble');
    expect(() => readCertificate({ ...FILES, cert: no }, now)).toThrow('no certificate with its key');
    expect(() => readCertificate({ cert: FILES.key, key: FILES.cert }, now)).toThrow('no certificate with');
    expect(() => readCertificate(FILES, '2200-01-01T00:00:00.000Z')).toThrow(/ran out on 21\d\d-\d\d-\d\d/);
    expect(readCertificate(FILES, now).cert.length).toBeGreaterThan(100);
  });
});
