/** How all charts look: thin rules, letters as on the page, colours by the page's CSS variables. */
const LETTERS = { labelColor: 'var(--ink)', titleColor: 'var(--ink)', labelFontSize: 12, titleFontSize: 12 };

export const THEME = {
  // The page gives each picture one title and one description; roles on every mark would only be noise.
  aria: false,
  view: { stroke: null },
  axis: {
    ...LETTERS,
    titleFontWeight: 'normal',
    gridColor: 'var(--rule)',
    domainColor: 'var(--soft)',
    tickColor: 'var(--soft)',
    tickSize: 4,
    labelOverlap: 'greedy',
    titlePadding: 8,
  },
  text: { color: 'var(--ink)', fontSize: 12 },
} as const;
