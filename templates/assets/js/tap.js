import { Controller } from '../vendor/stimulus.js';
import { deliver, keep, serverTime, tapsOf } from './tap-queue.js';

const notTapped = new Set(['once']);

// A button of the bench: kept on the phone with the time it was made, then sent; without a network it waits there.
export class Tap extends Controller {
  static values = { url: String, who: String, now: String, says: String };

  connect() {
    serverTime(this.nowValue);
  }

  async made(event) {
    event.preventDefault();
    if (this.waiting) return;
    this.waiting = true;
    this.mark(true);
    const body = {};
    const form = new FormData(this.element, event.submitter);
    for (const [name, value] of form) if (!notTapped.has(name) && value !== '') body[name] = value;
    // After taps that still wait, the clock this page showed is not the one that is meant.
    if (tapsOf(this.whoValue).some((tap) => !tap.refused)) delete body.begun;
    body.at = new Date(serverTime(this.nowValue)).toISOString();
    const what = body.what ? `${this.saysValue}: ${body.what}` : this.saysValue;
    try {
      keep({
        url: this.urlValue,
        who: this.whoValue,
        says: what,
        isStart: !this.urlValue.endsWith('/stop'),
        body,
      });
    } catch {
      // No room on the phone: the form goes its plain way.
      this.element.removeAttribute('data-controller');
      this.element.submit();
      return;
    }
    const { taken } = await deliver(this.whoValue);
    this.waiting = false;
    this.mark(false);
    if (taken > 0)
      window.Turbo.visit('/bench', { action: location.pathname === '/bench' ? 'replace' : 'advance' });
  }

  mark(waiting) {
    for (const button of this.element.querySelectorAll('button')) {
      if (waiting) button.setAttribute('aria-disabled', 'true');
      else button.removeAttribute('aria-disabled');
    }
  }
}
