/** What kind of trouble it is; the web turns it into 422, 404, 409, 403, 429 or 507. */
export type TroubleKind = 'invalid' | 'not-found' | 'conflict' | 'not-allowed' | 'too-many' | 'no-room';

/** One field at fault: a path such as `lines.2.quantity` and a sentence that says what to do. */
export type FieldTrouble = { readonly field: string; readonly text: string };

/**
 * The base of every error that is somebody's to mend. Anything else that is thrown is a bug and becomes a 500.
 *
 * `code` is stable and meant for programs; `message` is a sentence for people.
 */
export class Trouble extends Error {
  constructor(
    readonly kind: TroubleKind,
    readonly code: string,
    message: string,
    readonly fields: readonly FieldTrouble[] = [],
  ) {
    super(message);
    this.name = new.target.name;
  }
}

/** Something typed or sent cannot be meant. */
export class Invalid extends Trouble {
  constructor(message: string, fields: readonly FieldTrouble[] = [], code = 'invalid') {
    super('invalid', code, message, fields);
  }

  /** One field at fault. */
  static field(field: string, text: string): Invalid {
    return new Invalid(text, [{ field, text }]);
  }
}

/** A value lies outside what the arithmetic can answer for. */
export class OutOfRange extends Trouble {
  constructor(message: string, fields: readonly FieldTrouble[] = []) {
    super('invalid', 'out-of-range', message, fields);
  }
}

/** There is no such thing (any more). */
export class NotFound extends Trouble {
  constructor(what: string) {
    super('not-found', 'not-found', `There is no such ${what}.`);
  }
}

/** The thing changed meanwhile, or its state does not allow this. */
export class Conflict extends Trouble {
  constructor(message: string, code = 'conflict', fields: readonly FieldTrouble[] = []) {
    super('conflict', code, message, fields);
  }
}

/** This person may not do this. */
export class NotAllowed extends Trouble {
  constructor(message: string, code = 'not-allowed') {
    super('not-allowed', code, message);
  }
}

/** Somebody else changed it since it was looked at. Carries the present values, so that both versions can be shown. */
export class Stale extends Conflict {
  constructor(readonly present: Readonly<Record<string, unknown>>) {
    super('Somebody changed this meanwhile. Look at both versions, then save again.', 'stale');
  }
}
