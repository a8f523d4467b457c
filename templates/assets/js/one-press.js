import { Controller } from '../vendor/stimulus.js';

// A second press does nothing until the answer to the first is there. The button is not disabled as such:
// a disabled button loses the focus, and its name and value are not sent.
export class OnePress extends Controller {
  pressed(event) {
    if (this.waiting) {
      event.preventDefault();
      event.stopImmediatePropagation();
      return;
    }
    if (event.defaultPrevented || this.element.dataset.turbo === 'false') return;
    this.waiting = true;
    this.mark(true);
  }

  answered() {
    this.waiting = false;
    this.mark(false);
  }

  // A page taken back out of the browser's own memory must be usable again.
  disconnect() {
    this.answered();
  }

  mark(waiting) {
    for (const button of this.element.querySelectorAll('button')) {
      if (waiting) button.setAttribute('aria-disabled', 'true');
      else button.removeAttribute('aria-disabled');
    }
  }
}
