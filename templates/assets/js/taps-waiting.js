import { Controller } from '../vendor/stimulus.js';
import { deliver, forgetRefused, othersWait, tapsOf } from './tap-queue.js';

const tryAgainAfter = 15_000;

// Says which taps still wait on this phone, and sends them when the network is back.
export class TapsWaiting extends Controller {
  static targets = ['words', 'list', 'stop', 'again', 'forget'];
  static values = { who: String };

  connect() {
    this.show();
    this.deliver();
    this.again = setInterval(() => this.deliver(), tryAgainAfter);
  }

  disconnect() {
    clearInterval(this.again);
  }

  async deliver() {
    if (!tapsOf(this.whoValue).some((tap) => !tap.refused)) return;
    const { taken, why } = await deliver(this.whoValue);
    this.why = why;
    if (!this.element.isConnected) return;
    this.show();
    // Nobody who is writing is torn away from it.
    if (taken > 0 && !document.activeElement?.matches('main :is(input, textarea, select)'))
      window.Turbo.visit(location.href, { action: 'replace' });
  }

  show() {
    const taps = tapsOf(this.whoValue);
    const waiting = taps.filter((tap) => !tap.refused);
    const refused = taps.filter((tap) => tap.refused);
    const others = othersWait(this.whoValue);
    this.element.hidden = taps.length === 0 && !others;
    this.listTarget.replaceChildren(...taps.map((tap) => this.line(tap)));
    const words = [];
    if (waiting.length > 0) words.push(this.waitingWords(waiting.length));
    if (refused.length > 0)
      words.push(refused.length === 1 ? 'One tap was not taken.' : `${refused.length} taps were not taken.`);
    if (others) words.push('Taps of somebody else wait on this phone until they sign in.');
    this.wordsTarget.textContent = words.join(' ');
    this.stopTarget.hidden = !waiting.at(-1)?.isStart;
    this.againTarget.hidden = waiting.length === 0;
    this.forgetTarget.hidden = refused.length === 0;
  }

  waitingWords(count) {
    const taps = count === 1 ? 'One tap waits' : `${count} taps wait`;
    if (this.why === 'signed-out') return `${taps} on this phone until you have signed in again.`;
    return `${taps} on this phone until the network is back.`;
  }

  line(tap) {
    const line = document.createElement('li');
    // As the rest of the page writes it, whatever the browser is set to.
    const time = new Date(tap.body.at).toLocaleTimeString(document.documentElement.lang, {
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    });
    line.textContent = tap.refused ? `${tap.says}, ${time}: ${tap.refused}` : `${tap.says}, ${time}`;
    return line;
  }

  forget() {
    forgetRefused(this.whoValue);
  }
}
