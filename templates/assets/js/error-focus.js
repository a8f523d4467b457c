import { Controller } from '../vendor/stimulus.js';

// Takes a reader, by ear or by eye, to what was refused; on a Turbo answer the browser would stay where it was.
export class ErrorFocus extends Controller {
  connect() {
    this.element.focus();
  }
}
