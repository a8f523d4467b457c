import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Clock } from '../../storage/clock.js';
import type { Typed } from './typed.js';

const KEEP_FOR = 15 * 60_000;
const MOST = 200;

/** What was typed, and on which version, when a sign-in ran out in mid-form, held until the form is shown again after signing in. */
@Injectable()
export class KeptForms {
  private readonly kept = new Map<string, { owner: string; typed: Typed; until: number }>();

  constructor(private readonly clock: Clock) {}

  /** @returns the key to put into the address of the form's page as `kept` */
  keep(owner: string, typed: Typed): string {
    const now = this.clock.ticks();
    for (const [key, one] of this.kept) if (one.until < now || this.kept.size >= MOST) this.kept.delete(key);
    const key = randomUUID();
    const { once: _once, ...values } = typed;
    this.kept.set(key, { owner, typed: values, until: now + KEEP_FOR });
    return key;
  }

  take(key: string, owner: string): Typed | undefined {
    const one = this.kept.get(key);
    return one && one.owner === owner && one.until >= this.clock.ticks() ? one.typed : undefined;
  }
}
