import { LONG } from '../how-many.js';
/** A phone and a desktop; a tablet between them for the long run: what overlaps does so at an end, as a rule. */
export const WIDTHS_PX = LONG ? [360, 768, 1440] : [360, 1440];
