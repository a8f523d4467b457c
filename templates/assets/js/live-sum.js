import { Controller } from '../vendor/stimulus.js';

const pauseInTyping = 250;

// Sends the form as it stands to the address that works out the sum, and puts the answer into the sum's frame.
// The answer holds a <turbo-frame> with the same id. Nothing is saved, and the field keeps the focus.
export class LiveSum extends Controller {
  static values = { url: String, frame: String };

  disconnect() {
    clearTimeout(this.pause);
    this.underway?.abort();
  }

  typed() {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.workOut(), pauseInTyping);
  }

  async workOut() {
    this.underway?.abort();
    this.underway = new AbortController();
    const frame = document.getElementById(this.frameValue);
    if (!frame) return;
    frame.setAttribute('aria-busy', 'true');
    try {
      const answer = await fetch(this.urlValue, {
        method: 'POST',
        body: new URLSearchParams(new FormData(this.element)),
        headers: { Accept: 'text/html', 'Turbo-Frame': this.frameValue },
        signal: this.underway.signal,
      });
      if (answer.ok || answer.status === 422) this.place(frame, await answer.text());
      frame.removeAttribute('aria-busy');
    } catch (reason) {
      if (reason.name === 'AbortError') return;
      frame.removeAttribute('aria-busy');
    }
  }

  place(frame, html) {
    const answered = new DOMParser().parseFromString(html, 'text/html').getElementById(this.frameValue);
    if (!answered) return;
    const open = [...frame.querySelectorAll('details[open][data-line]')].map((each) => each.dataset.line);
    for (const each of answered.querySelectorAll('details[data-line]')) {
      if (open.includes(each.dataset.line)) each.open = true;
    }
    frame.replaceChildren(...answered.childNodes);
  }
}
