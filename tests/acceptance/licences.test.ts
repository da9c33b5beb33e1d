/** Licences: what an installation brings along may be given on, and what is copied keeps its notices. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import type { PageScripts } from '../../src/report/alive/page-scripts.js';
import { html } from '../../src/report/html.js';
import { page as reportPage } from '../../src/report/page.js';
import { ROOT, page, rowsOf } from './markdown.js';

interface Entry {
  readonly version: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
  readonly deprecated?: string;
}
const { packages } = JSON.parse(page('package-lock.json')) as { packages: Readonly<Record<string, Entry>> };
/** What an installation may bring along: by place in node_modules. */
const needed = Object.entries(packages).filter(([place, { dev, devOptional }]) => place !== '' && !dev && !devOptional);

/**
 * Ask at most that their notices go along. Names and marks: SPDX License List (spdx.org/licenses), the mark being words of
 * the licence's text there.
 */
const PERMITTED = new Map([
  ['0BSD', /Permission to use, copy, modify, and\/or distribute this software/],
  ['Apache-2.0', /TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION/],
  ['BSD-2-Clause', /Redistributions in binary form must reproduce the above copyright notice/],
  ['BSD-3-Clause', /Redistributions in binary form must reproduce the above copyright notice/],
  ['BSL-1.0', /Boost Software License/],
  ['BlueOak-1.0.0', /Blue Oak Model License/],
  ['CC0-1.0', /CC0 1\.0 Universal/],
  ['ISC', /Permission to use, copy, modify, and\/or distribute this software/],
  ['MIT', /Permission is hereby granted, free of charge, to any person obtaining/],
  ['Unlicense', /This is free and unencumbered software released into the public domain/],
]);
const single = (expression: string): string[] => expression.replace(/[()]/g, '').split(' AND ');

describe('what an installation brings along', () => {
  test('each package says its licence, and it is one that may be given on', () => {
    expect(needed.length).toBeGreaterThan(40);
    const strange = needed.filter(([, { license }]) => !single(license ?? 'none').every((one) => PERMITTED.has(one)));
    expect(strange).toEqual([]);
  });

  test('and says the same where it is installed', () => {
    const here = needed.filter(([place]) => existsSync(join(ROOT, place, 'package.json')));
    expect(here.length).toBeGreaterThan(40);
    const otherwise = here.filter(([place, { version, license }]) => {
      const said = JSON.parse(page(join(place, 'package.json'))) as { version: string; license: string };
      return said.version !== version || said.license !== license;
    });
    expect(otherwise).toEqual([]);
  });

  test('none is given up by those who made it', () => {
    expect(Object.entries(packages).filter(([, { deprecated }]) => deprecated !== undefined)).toEqual([]);
  });

  test('docs/licences.md lists it, and is up to date', () => {
    const text = page('docs/licences.md');
    const made = execFileSync(process.execPath, ['build/licences.mjs', '--print'], { cwd: ROOT, encoding: 'utf8' });
    expect({ stale: made !== text, hint: 'npm run licences' }).toEqual({ stale: false, hint: 'npm run licences' });
    const listed = new Set(rowsOf(text).map(([name, version, licence]) => `${name} ${version} ${licence}`));
    for (const [place, { version, license }] of needed)
      expect(listed).toContain(`${place.split('node_modules/').at(-1)} ${version} ${license}`);
  });
});

interface Notice {
  readonly name: string;
  readonly licence: string;
  readonly text: string;
}

/** Of each package in a file of notices its licence and the text that goes along. */
function noticesIn(notices: string): readonly Notice[] {
  return notices
    .split(/^-{72}$/m)
    .slice(1)
    .flatMap((part) => {
      const [names = '', ...text] = part.trim().split('\n\n');
      return names.split('\n').map((line) => {
        const [, name = '', licence = ''] = /^(\S+) \S+ \((.*)\)$/.exec(line) ?? [];
        return { name, licence, text: text.join('\n\n') };
      });
    });
}

describe.each([
  {
    into: 'reports',
    file: 'dist/page/licences.txt',
    among: ['vega', 'vega-interpreter', 'd3-array', 'zod', 'yaml', 'seedrandom', '@stdlib/math-base-special-cos'],
  },
  {
    into: 'modules',
    file: 'dist/licences.txt',
    among: ['vega', 'vega-lite', 'd3-array', '@stdlib/math-base-special-cos', '@stdlib/stats-base-dists-t-cdf'],
  },
])('what is copied into $into', ({ file, among }) => {
  const notices = page(file);
  const kept = noticesIn(notices);

  test('what they are made with is among it', () => {
    expect(kept.map(({ name }) => name)).toEqual(expect.arrayContaining(among));
  });

  test('each with who made it, and with the words of its licence', () => {
    const flowing = (text: string) =>
      text.replace(/\s+/g, ' ').replaceAll('and distribute this', 'and/or distribute this');
    const all = flowing(notices);
    const without = kept.filter(({ licence, text }) => {
      const marks = single(licence).map((one) => PERMITTED.get(one) ?? /^$/);
      // Some packages name a second licence whose words only their siblings bring along.
      const worded = marks.some((mark) => mark.test(flowing(text))) && marks.every((mark) => mark.test(all));
      return !worded || !/copyright|public domain/i.test(text);
    });
    expect(without).toEqual([]);
  });

  test('docs/licences.md lists it', () => {
    const listed = new Set(rowsOf(page('docs/licences.md')).map(([name, , licence]) => `${name} ${licence}`));
    for (const { name, licence } of kept) expect(listed).toContain(`${name} ${licence}`);
  });
});

describe('a report', () => {
  const scripts = JSON.parse(page('dist/page/scripts.json')) as PageScripts;

  test('the notices stand at the end of each script that needs them', () => {
    const endOf = (packed: string) => {
      const text = gunzipSync(Buffer.from(packed, 'base64')).toString();
      return text.slice(text.lastIndexOf('/*!'));
    };
    const [alive, ask] = [endOf(scripts.alive), endOf(scripts.ask)];
    for (const { name } of noticesIn(page('dist/page/licences.txt'))) expect(`${alive}${ask}`).toContain(`\n${name} `);
    expect(alive).toContain('\nvega ');
    expect(ask).toContain('\nzod ');
    for (const end of [alive, ask]) expect(end).toMatch(/Permission is hereby granted[^]*\*\/$/);
    // Ours alone.
    expect(scripts.loader).not.toContain('/*');
  });

  test('a page with scripts says where, one without has nothing to say', () => {
    const footer = html`made by hand`;
    expect(reportPage('A page', html`<main></main>`, { footer, scripts })).toContain('dist/page/licences.txt');
    expect(reportPage('A page', html`<main></main>`, { footer })).not.toContain('licences');
  });
});
