/**
 * Readings of a bench, the curve through them, and what is left: a picture of its own beside a profile.
 *
 * It stands alone, so colours are the page's light ones written out: not every viewer of SVG knows CSS variables.
 */
import type { Fit } from '../../fitting/fit.js';
import { html } from '../html.js';
import { STYLE } from '../style.js';
import { count, plural } from '../words.js';
import { drawn } from './drawn.js';
import { THEME } from './theme.js';
import { thinned } from './thin.js';

const WIDTH = 560;
/** Dots drawn of what is no stray; more only thicken the ink. */
const MOST_DOTS = 1500;
const MOST_STRAYS = 300;

interface Dot {
  readonly d: number;
  readonly read: number;
  /** Reading less curve. */
  readonly rest: number;
}

/** The picture as an SVG file's text. */
export async function benchChart(fit: Fit): Promise<string> {
  const { svg } = await drawn(spec(fit));
  const title = `Readings of a ${fit.kind} at true distances, and the curve fitted to them`;
  const summary =
    `${plural(fit.rows, 'row')} at ${plural(fit.distances_m.length, 'distance')} from ${fit.distances_m[0]} to ${fit.distances_m.at(-1)} m: ` +
    `${count(fit.strays)} strays, ${count(fit.silent)} without echo. Above: readings and curve. Below: reading less curve, with a band of two standard deviations of the noise.`;
  return `${svg
    .replace(/^<svg([^>]*)>/, (_, rest: string) => {
      const words = html`<title>${title}</title><desc>${summary}</desc><rect width="100%" height="100%" fill="var(--paper)"/>`;
      return `<svg${rest} role="img">${words.text}`;
    })
    .replace(/var\(--(\w+)\)/g, (_, name: string) => colour(name))}\n`;
}

/** The light one: it stands first. */
function colour(name: string): string {
  return new RegExp(`--${name}:(#[0-9a-f]{6})`).exec(STYLE)?.[1] ?? '#000000';
}

function dots(fit: Fit): { readonly kept: Dot[]; readonly strays: Dot[] } {
  const { curve, fitted, separation } = fit;
  const kept: Dot[] = [];
  const strays: Dot[] = [];
  for (const { group, kept: probability } of separation.groups) {
    const d = group.distance_m;
    const at = curve.at(fitted.parameters, d);
    group.values.forEach((read, i) => (probability[i]! < 0.5 ? strays : kept).push({ d, read, rest: read - at }));
  }
  const few = (all: readonly Dot[], most: number) => thinned(all.length, most).map((i) => all[i]!);
  return { kept: few(kept, MOST_DOTS), strays: few(strays, MOST_STRAYS) };
}

function spec(fit: Fit): object {
  const { curve, fitted, separation, unit } = fit;
  const { kept, strays } = dots(fit);
  const [near, far] = [fit.distances_m[0]!, fit.distances_m.at(-1)!];
  const steps = Array.from({ length: 121 }, (_, i) => near + ((far - near) * i) / 120);
  const line = steps.map((d) => ({ d, read: curve.at(fitted.parameters, d) }));
  const band = steps.map((d) => ({ d, low: -2 * separation.noise.sd(d), high: 2 * separation.noise.sd(d) }));
  const means = separation.groups.map(({ group, centre }) => ({
    d: group.distance_m,
    rest: centre - curve.at(fitted.parameters, group.distance_m),
  }));
  const x = (title: string | null) => ({
    field: 'd',
    type: 'quantitative',
    scale: { zero: false, padding: 14 },
    axis: { title, labels: title !== null, tickCount: 8 },
  });
  const y = (field: string, title: string) => ({ field, type: 'quantitative', axis: { title, tickCount: 5 } });
  const reading = y('read', unit === 'V' ? 'reading, V' : 'reading, m');
  const rest = y('rest', unit === 'V' ? 'reading less curve, V' : 'reading less curve, m');
  const dot = { mark: { type: 'point', filled: true, size: 14, opacity: 0.5, color: 'var(--a)' } };
  const cross = { mark: { type: 'point', shape: 'cross', filled: true, size: 45, opacity: 1, color: 'var(--b)' } };
  const key = `Dots: readings. Crosses: strays (${count(fit.strays)}). Line: the curve. Squares: means.`;
  return {
    background: null,
    config: { ...THEME, title: { color: 'var(--ink)', fontSize: 12, fontWeight: 'normal', anchor: 'start' } },
    padding: 12,
    spacing: 14,
    title: key,
    vconcat: [
      {
        width: WIDTH,
        height: 240,
        layer: [
          { data: { values: kept }, ...dot, encoding: { x: x(null), y: reading } },
          { data: { values: strays }, ...cross, encoding: { x: x(null), y: reading } },
          {
            data: { values: line },
            mark: { type: 'line', color: 'var(--ink)', strokeWidth: 1.5 },
            encoding: { x: x(null), y: reading },
          },
        ],
      },
      {
        width: WIDTH,
        height: 150,
        layer: [
          {
            data: { values: band },
            mark: { type: 'area', color: 'var(--a)', opacity: 0.15 },
            encoding: { x: x('true distance, m'), y: { ...rest, field: 'low' }, y2: { field: 'high' } },
          },
          { data: { values: [{}] }, mark: { type: 'rule', color: 'var(--ink)' }, encoding: { y: { datum: 0 } } },
          { data: { values: kept }, ...dot, encoding: { x: x('true distance, m'), y: rest } },
          {
            data: { values: means },
            mark: { type: 'point', shape: 'square', filled: true, size: 60, opacity: 1, color: 'var(--ink)' },
            encoding: { x: x('true distance, m'), y: rest },
          },
        ],
      },
    ],
  };
}
