import { Controller } from '../vendor/stimulus.js';

// With the tape in one hand, Enter goes on to the next line instead of sending the form; after the last, to the button.
export class NextRow extends Controller {
  pressed(event) {
    if (event.key !== 'Enter' || event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
    const rows = [...this.element.querySelectorAll('input[type="text"]')];
    const here = rows.indexOf(event.target);
    if (here < 0) return;
    event.preventDefault();
    const goal = event.shiftKey ? rows[here - 1] : rows[here + 1];
    const next = goal ?? this.element.closest('form').querySelector('button.main');
    next.focus();
    next.select?.();
  }
}
