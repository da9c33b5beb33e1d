// The pure core in a real browser: the same bytes as here, from a bundle made as docs/browser.md says.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { build, type BuildOptions, type Metafile } from 'esbuild';
import { chromium, type Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as library from '../../src/index.js';
import { textsOf } from '../acceptance/fingerprint.js';
import { hashesOf } from '../acceptance/hashes.js';
import { CHROMIUM, withoutChromium } from '../needs.js';

const missing = withoutChromium();

/** The library alone, and with the small scenario beside it. */
const LIBRARY = bundled(resolve('src/index.ts'));
const WITH_SCENARIO = bundled(resolve('tests/acceptance/fingerprint-in-browser.ts'));

function bundled(entry: string): BuildOptions & { readonly write: false; readonly metafile: true } {
  return {
    entryPoints: [entry],
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'jambeam',
    write: false,
    metafile: true,
    logLevel: 'silent',
  };
}

test('the library bundles for a browser: no warning, nothing left to import, nothing of Node', async () => {
  // A built-in module of Node's would not be found, and that is an error.
  const { warnings, metafile } = await build(LIBRARY);
  expect(warnings).toEqual([]);
  expect(left(metafile)).toEqual([]);
});

function left({ outputs, inputs }: Metafile): string[] {
  const imports = [...Object.values(outputs), ...Object.values(inputs)].flatMap((file) => file.imports);
  return imports.filter(({ external }) => external === true).map(({ path }) => path);
}

test('docs/browser.md bundles it in the same way', () => {
  const docs = readFileSync('docs/browser.md', 'utf8');
  for (const flag of ['--bundle', '--platform=browser', '--format=iife', '--global-name=jambeam'])
    expect(docs).toContain(flag);
});

describe.skipIf(missing)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
  });
  afterAll(() => browser?.close());

  test('a small run gives the same bytes as here', async () => {
    const { outputFiles } = await build(WITH_SCENARIO);
    const page = await browser.newPage();
    const trouble: string[] = [];
    page.on('pageerror', (error) => trouble.push(error.message));
    page.on('console', (message) => trouble.push(message.text()));
    // Browsers hash only for pages of a safe origin; this one is answered here and never leaves the machine.
    await page.route('**', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html>' }));
    await page.goto('https://blank.test/');
    await page.addScriptTag({ content: outputFiles[0]!.text });
    const hashes: unknown = await page.evaluate('jambeam.hashes()');
    expect(trouble).toEqual([]);
    expect(hashes).toEqual(hashesOf(textsOf(library)));
  });
});
