import { Controller } from '../vendor/stimulus.js';

const pauseInTyping = 200;

// Types ahead of the Find button: asks for the same address into a frame, and keeps the address line true.
export class TypeToFind extends Controller {
  static values = { frame: String };

  disconnect() {
    clearTimeout(this.pause);
  }

  typed() {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.find(), pauseInTyping);
  }

  find() {
    const frame = document.getElementById(this.frameValue);
    if (!frame) return;
    const asked = new URL(this.element.action, location.href);
    asked.search = new URLSearchParams(new FormData(this.element)).toString();
    if (frame.src === asked.href) return;
    frame.src = asked.href;
    history.replaceState(history.state, '', asked);
  }
}
