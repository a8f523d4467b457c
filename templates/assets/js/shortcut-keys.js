import { Controller } from '../vendor/stimulus.js';

const takesLetters = 'input, select, textarea, [contenteditable], [role="textbox"]';

// One key, outside fields only: `/` goes to the find form, a letter to whatever bears it as data-key.
// data-keys="off" on the body switches all of it off.
export class ShortcutKeys extends Controller {
  static targets = ['find'];

  pressed(event) {
    if (this.element.dataset.keys === 'off') return;
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing || event.defaultPrevented) return;
    if (event.target instanceof Element && event.target.closest(takesLetters)) return;
    const goal = event.key === '/' ? this.hasFindTarget && this.findTarget : this.bearer(event.key);
    if (!goal) return;
    event.preventDefault();
    if (goal.matches('a, button')) goal.click();
    else this.stepInto(goal);
  }

  bearer(key) {
    if (!/^[a-z0-9?+]$/.test(key)) return null;
    return document.querySelector(`[data-key="${CSS.escape(key)}"]`);
  }

  stepInto(field) {
    field.focus();
    field.select?.();
  }
}
