import { describe, expect, it } from 'vitest';
import { isOurOwn } from '../../../src/web/manners/same-origin.js';

const host = 'studio.example:4410';
const own = `http://${host}`;
const cookie = 'bastings=x';

describe('a change is let in', () => {
  it.each([
    ['by Sec-Fetch-Site', { cookie, 'sec-fetch-site': 'same-origin' }],
    ['from the address line, by Sec-Fetch-Site', { cookie, 'sec-fetch-site': 'none' }],
    ['by Origin, where there is no TLS', { cookie, origin: own }],
    ['by Referer, where there is no Origin', { cookie, referer: `${own}/clients/new` }],
    ['from a program with a token and no cookie', { authorization: 'Bearer x' }],
    ['from a program with nothing of ours', {}],
  ])('%s', (_, headers) => {
    expect(isOurOwn('POST', { host, ...headers })).toBe(true);
  });
});

describe('a change is kept out', () => {
  it.each([
    ['from another site', { cookie, 'sec-fetch-site': 'cross-site' }],
    ['from a neighbour under the same name', { cookie, 'sec-fetch-site': 'same-site' }],
    [
      'from another site that also claims our Origin',
      { cookie, 'sec-fetch-site': 'cross-site', origin: own },
    ],
    ['from a site unheard of', { cookie, 'sec-fetch-site': 'something new' }],
    ['by a foreign Origin', { cookie, origin: 'http://elsewhere.example' }],
    ['by a foreign Origin with our Referer', { cookie, origin: 'http://elsewhere.example', referer: own }],
    ['by our name at another port', { cookie, origin: 'http://studio.example:80' }],
    [
      'by a name that only begins like ours',
      { cookie, origin: 'http://studio.example:4410.elsewhere.example' },
    ],
    ['by our name as a user of another', { cookie, origin: `http://${host}@elsewhere.example` }],
    ['by no Origin at all (a page out of a frame)', { cookie, origin: 'null' }],
    ['by a foreign Referer', { cookie, referer: 'http://elsewhere.example/?studio.example:4410' }],
    ['with our cookie and not a word of where from', { cookie }],
    ['with our cookie beside a token', { cookie, authorization: 'Bearer x' }],
    ['with a foreign Origin and no cookie (signing somebody in)', { origin: 'http://elsewhere.example' }],
    ['with what is no address', { cookie, origin: 'studio.example:4410' }],
  ])('%s', (_, headers) => {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE'])
      expect([method, isOurOwn(method, { host, ...headers })]).toEqual([method, false]);
  });
});

it('looking is free from anywhere: it changes nothing', () => {
  for (const method of ['GET', 'HEAD', 'OPTIONS'])
    expect(isOurOwn(method, { host, cookie, 'sec-fetch-site': 'cross-site' })).toBe(true);
});
