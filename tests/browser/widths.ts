/** A phone and a desktop; a tablet between them for the long run: what overlaps does so at an end, as a rule. */
export const WIDTHS_PX = process.env['JAMBEAM_LONG'] === undefined ? [360, 1440] : [360, 768, 1440];
