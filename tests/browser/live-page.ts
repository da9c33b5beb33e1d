/** A report in a real browser as a reader has it: from the disk, without a network, everything it complains about noted. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { CHROMIUM } from '../needs.js';

export class Reader {
  private readonly folder = mkdtempSync(join(tmpdir(), 'jambeam-reader-'));
  private browser: Browser | null = null;
  /** Requests, errors, and what the console says: violations of the page's policy are told there. */
  readonly trouble: string[] = [];

  async start(): Promise<void> {
    this.browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
  }

  async end(): Promise<void> {
    await this.browser?.close();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Opens a page's text as a file. */
  async open(html: string, options: BrowserContextOptions = {}): Promise<Page> {
    const file = join(this.folder, 'report.html');
    writeFileSync(file, html);
    const context = await this.browser!.newContext({
      viewport: { width: 1440, height: 900 },
      offline: true,
      ...options,
    });
    const page = await context.newPage();
    const own = pathToFileURL(file).href;
    page.on('console', (message) => this.trouble.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => this.trouble.push(`error: ${error.message}`));
    page.on('request', (request) => {
      const url = request.url();
      // What the page makes itself: its worker, and pictures on their way to a file.
      if (url !== own && !/^(?:blob:|data:image\/svg)/.test(url)) this.trouble.push(`request: ${url}`);
    });
    await page.goto(own);
    return page;
  }
}
