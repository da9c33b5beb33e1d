/** What a reader takes along of a chart: its numbers as CSV, its picture as SVG or PNG. */
import { stringify } from 'csv-stringify/browser/esm/sync';
import type { View } from 'vega';
import type { ChartTable } from '../report/charts/live.js';
import { bare } from '../report/words.js';
import { element } from './elements.js';

/** Numbers whole, texts safe to open in a spreadsheet. */
export function csvOf({ columns, rows }: ChartTable): string {
  const cells = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? bare(cell) : cell)));
  return stringify([columns.map(({ title }) => bare(title)), ...cells], { escape_formulas: true });
}

/** The picture as a file that stands alone: colours of the page written out. */
export async function svgOf(view: View, title: string): Promise<string> {
  const style = getComputedStyle(document.documentElement);
  const svg = (await view.toSVG()).replace(/var\((--[\w-]+)\)/g, (_, name: string) =>
    style.getPropertyValue(name).trim(),
  );
  const paper = style.getPropertyValue('--paper').trim();
  const words = element('p', { text: title });
  return svg.replace(
    /^<svg([^>]*)>/,
    (_, rest: string) =>
      `<svg${rest} role="img" font-family="sans-serif"><title>${words.innerHTML}</title><rect width="100%" height="100%" fill="${paper}"/>`,
  );
}

/** Dots a picture has for each of the page's: enough to print. */
const SHARPER = 3;

export async function pngOf(svg: string, width: number, height: number): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = element('canvas', { attributes: { width: width * SHARPER, height: height * SHARPER } });
  const context = canvas.getContext('2d');
  context?.scale(SHARPER, SHARPER);
  context?.drawImage(image, 0, 0, width, height);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob === null ? reject(new Error('no picture')) : resolve(blob)), 'image/png');
  });
}

/** Hands a file to the reader. */
export function save(name: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  element('a', { attributes: { href: url, download: name } }).click();
  // The browser has begun to take it by then.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
