/** What every page of ours must be: whole by itself. */
import { expect } from 'vitest';

/** A report's scenario, which no browser runs. */
const DATA = /<script type="application\/json" id="jambeam-scenario">[^<>&]*<\/script>/;

/** No script that runs, nothing to fetch, no link. */
export function expectWholeByItself(whole: string): void {
  const page = whole.replace(DATA, '');
  expect(page).not.toMatch(
    /<script|<link|<img|<iframe|<object|<base|\bsrc=|\bhref="(?!#)|@import|url\((?!#)|\son[a-z]+=/i,
  );
  // The only addresses are names of XML namespaces.
  expect(page.replace(/xmlns(?::\w+)?="[^"]*"/g, '')).not.toMatch(/https?:/);
}
