import type { PaperChoices } from '../../../domain/house/paper-choices.js';
import type { Studio } from '../../../domain/house/studio.js';

/** How the house numbers and words its invoices, and how it is paid. */
export type PaperSettings = PaperChoices;

/** The house's own settings, usual ones where it has said nothing. */
export const paperSettings = ({ papers }: Studio): PaperSettings => papers;
