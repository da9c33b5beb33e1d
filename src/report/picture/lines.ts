/** Outlines of bands, with no more points than an eye can tell apart. */
import type { Band } from '../../score/pictures.js';
import { px } from '../drawing/svg.js';

/** Points nearer than this to the line through their neighbours are left out, pixels. */
const NEAR = 0.8;

/** A closed path. @param x pixels of an instant by its number @param y pixels of millimetres */
export function bandPath(band: Band, x: (n: number) => number, y: (mm: number) => number): string {
  const upper = band.high_mm.map((mm, i) => [x(band.from + i), y(mm)] as const);
  const lower = band.low_mm.map((mm, i) => [x(band.from + i), y(mm)] as const);
  // A single instant is a short stroke.
  if (upper.length === 1) {
    const [[at, top], [, bottom]] = [upper[0]!, lower[0]!];
    return `M${px(at - 1)} ${px(top)}H${px(at + 1)}V${px(bottom)}H${px(at - 1)}Z`;
  }
  return closed([...simpler(upper), ...simpler(lower).reverse()]);
}

/** Steps from point to point rather than places, to half a pixel, with no space where a sign parts two numbers. */
function closed(points: readonly Pixel[]): string {
  let text = '';
  let [x, y] = [0, 0];
  for (const [i, point] of points.entries()) {
    const [to, up] = [halves(point[0]), halves(point[1])];
    if (i > 0 && to === x && up === y) continue;
    const [dx, dy] = [short((to - x) / 2), short((up - y) / 2)];
    const next = `${dx}${dy.startsWith('-') ? '' : ' '}${dy}`;
    text += i === 0 ? `M${next}l` : `${/[l]$/.test(text) || next.startsWith('-') ? '' : ' '}${next}`;
    [x, y] = [to, up];
  }
  return `${text}z`;
}

const halves = (x: number): number => Math.round(x * 2);
/** 0.5 as '.5', -0.5 as '-.5'. */
const short = (x: number): string => String(x).replace(/^(-?)0\./, '$1.');

type Pixel = readonly [number, number];

/** Douglas and Peucker's way: "Algorithms for the reduction of the number of points", Cartographica 10, 1973 (from memory). */
function simpler(points: readonly Pixel[]): Pixel[] {
  if (points.length < 3) return [...points];
  const [first, last] = [points[0]!, points[points.length - 1]!];
  let far = 0;
  let at = 0;
  points.forEach(([x, y], i) => {
    const share = (x - first[0]) / (last[0] - first[0]);
    const off = Math.abs(y - first[1] - share * (last[1] - first[1]));
    if (off > far) [far, at] = [off, i];
  });
  if (far <= NEAR) return [first, last];
  return [...simpler(points.slice(0, at + 1)), ...simpler(points.slice(at)).slice(1)];
}
