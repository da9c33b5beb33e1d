// Makes docs/report.png: the first screen of the starter's report, as a browser shows it. Run: npm run picture
// Needs Chromium at /usr/bin/chromium, or where CHROMIUM says.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'jambeam-picture-'));
const picture = join(root, 'docs/report.png');
try {
  const run = ['run', join(root, 'scenarios/starter.yaml'), '--out', join(folder, 'starter.run')];
  execFileSync(process.execPath, [join(root, 'bin/jambeam.js'), ...run], { stdio: ['ignore', 'ignore', 'inherit'] });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
  });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  await page.goto(pathToFileURL(join(folder, 'starter.run/report.html')).href);
  await page.screenshot({ path: picture });
  await browser.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(`docs/report.png, ${Math.round(statSync(picture).size / 1000)} kB`);
