/** What every page of ours must be: whole by itself. */
import { expect } from 'vitest';

/** No script, nothing to fetch, no link. */
export function expectWholeByItself(page: string): void {
  expect(page).not.toMatch(/<script|<link|<img|<iframe|<object|<base|\bsrc=|\bhref="(?!#)|@import|url\((?!#)|\son[a-z]+=/i);
  // The only addresses are names of XML namespaces.
  expect(page.replace(/xmlns(?::\w+)?="[^"]*"/g, '')).not.toMatch(/https?:/);
}
