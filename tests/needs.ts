/** What a machine must have for some tests: without it they are skipped; a test says so, and fails where the checks run. */
import { existsSync } from 'node:fs';
import { expect, test } from 'vitest';

/** @param missing what is not there @returns whether nothing is missing; else a test tells what is */
export function needs(missing: readonly string[]): boolean {
  if (missing.length === 0) return true;
  test(`needs ${missing.join(' and ')}, which is not here`, ({ skip }) => {
    if (process.env['CI'] === 'true') expect.fail(`${missing.join(' and ')} must be installed where the checks run`);
    skip(`no ${missing.join(', no ')}`);
  });
  return false;
}

export const CHROMIUM = '/usr/bin/chromium';
/** Whether there is no Chromium, which a test then tells. */
export const withoutChromium = (): boolean => !needs(existsSync(CHROMIUM) ? [] : [CHROMIUM]);
