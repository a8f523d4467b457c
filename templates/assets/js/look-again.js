import { Controller } from '../vendor/stimulus.js';

// Looks at a page again while work goes on behind it; without script there is a link that does the same.
export class LookAgain extends Controller {
  connect() {
    this.wait = setTimeout(() => window.Turbo.visit(window.location.href, { action: 'replace' }), 3000);
  }

  disconnect() {
    clearTimeout(this.wait);
  }
}
