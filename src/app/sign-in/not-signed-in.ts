/** Nobody is signed in on this request, and the route is not open to strangers. */
export class NotSignedIn extends Error {}

/** The studio has no owner yet: everything leads to the first start. */
export class NotOpenedYet extends Error {}
