/** Version of jambeam, as in package.json (a test holds them together); the core can't read files. */
export const VERSION = '0.1.0';
