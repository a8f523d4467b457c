import { afterAll, beforeAll, expect } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

type Errors = { readonly pointer: string; readonly detail: string }[];

/** A studio for one test file, and questions put to it. */
export const studioToAsk = () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const ask = (about: string, body: unknown, headers?: Record<string, string>) =>
    studio.api('POST', `/api/work-out/${about}`, body, headers);
  /** The answer, which must be a good one. */
  const told = async (about: string, body: unknown) => {
    const answer = await ask(about, body);
    expect(answer.status, answer.text).toBe(200);
    return answer.json();
  };
  /** What is at fault, which must be 422 problem details with a sentence for each pointer. */
  const refused = async (about: string, body: unknown): Promise<string[]> => {
    const answer = await ask(about, body);
    expect(answer.status, answer.text).toBe(422);
    expect(answer.headers['content-type']).toContain('application/problem+json');
    const errors: Errors = answer.json().errors;
    for (const { detail } of errors) expect(detail).toMatch(/^[A-Z“0-9].{4,}[.…}]$/s);
    return errors.map(({ pointer }) => pointer);
  };
  return { studio: () => studio, ask, told, refused };
};
