import { Controller } from '../vendor/stimulus.js';
import { serverTime } from './tap-queue.js';

const inWords = (minutes) => {
  const [hours, rest] = [Math.trunc(minutes / 60), minutes % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${String(rest).padStart(2, '0')}`;
};

// Lets the clock go on in sight, a minute at a time; what counts is reckoned on the server.
export class Ticking extends Controller {
  static values = { begun: String, now: String, before: Number, planned: Number };

  connect() {
    serverTime(this.nowValue);
    this.tick = setInterval(() => this.show(), 10_000);
  }

  disconnect() {
    clearInterval(this.tick);
  }

  show() {
    const ran = Math.floor((serverTime(this.nowValue) - Date.parse(this.begunValue) + 30_000) / 60_000);
    const soFar = inWords(this.beforeValue + Math.max(0, ran));
    this.element.textContent = this.plannedValue > 0 ? `${soFar} of ${inWords(this.plannedValue)}` : soFar;
  }
}
