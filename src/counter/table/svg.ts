/**
 * A table as a standalone SVG: states as boxes, rules as arrows with the levels that set them off. It draws with
 * `currentColor` alone, so it stands on light and dark pages; nothing in it depends on colour.
 */
import { type Arrow, type ArrowLabel, arrowsOf, refugeOf } from './arrows.js';
import { type Box, type Curve, curveBetween, directionAt, placeLabel } from './curves.js';
import { placeStates } from './layout.js';
import type { Table } from './table.js';
import { tableAsText } from './text.js';

const FONT = 14;
const NOTE_FONT = 12;
/** Mean width of a character as a share of the font's size: an estimate, on the wide side. */
const CHARACTER = 0.58;
const MARGIN = 24;

/** A state's box with the lines under its name. */
interface StateBox extends Box {
  readonly name: string;
  readonly notes: readonly string[];
  readonly start: boolean;
}

export function tableAsSvg(table: Table): string {
  const all = arrowsOf(table);
  const refuge = refugeOf(table, all);
  const drawn = all.filter((arrow) => arrow.to !== refuge && arrow.to !== arrow.from);
  const boxes = stateBoxes(table, all, refuge, drawn);
  const curves = drawn.map((arrow) => curveBetween(boxes[arrow.from] as Box, boxes[arrow.to] as Box));
  const taken: Box[] = [...boxes];
  const labels = placeLabels(drawn, curves, taken);
  const frame = frameOf(taken, curves);
  const legend = `${table.beams.join(', ')}: 0 clear, 1 broken${refuge === null ? '' : `; ways to ${table.states[refuge]?.name} are written into the boxes`}`;
  const width = Math.max(frame.width, legend.length * NOTE_FONT * CHARACTER + 2 * MARGIN);
  const left = frame.x - width / 2;
  const top = frame.y - frame.height / 2;
  const height = frame.height + NOTE_FONT + 12;
  const title = `Counting logic ${table.name} as states and arrows`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${xml(title)}" viewBox="${n(left)} ${n(top)} ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}" fill="none" stroke="currentColor" font-family="system-ui, sans-serif" font-size="${FONT}">`,
    `<title>${xml(title)}</title>`,
    `<desc>${xml(tableAsText(table))}</desc>`,
    ...drawn.map((arrow, i) => drawArrow(curves[i] as Curve, makesTallies(arrow))),
    ...boxes.map(drawState),
    ...labels.map(({ box, lines }) => drawLabel(box, lines)),
    drawText(frame.x, top + height - 12, legend, NOTE_FONT, false),
    '</svg>',
    '',
  ].join('\n');
}

function stateBoxes(table: Table, all: readonly Arrow[], refuge: number | null, drawn: readonly Arrow[]): StateBox[] {
  const start = table.states.findIndex((state) => state.name === table.start);
  const sizes = table.states.map((state, i) => {
    const notes = all.flatMap((arrow) => (arrow.from === i ? notesOf(arrow, refuge, table) : []));
    const nameWidth = state.name.length * FONT * CHARACTER * 1.05;
    const width = Math.max(nameWidth, ...notes.map((note) => note.length * NOTE_FONT * CHARACTER)) + 24;
    return { name: state.name, notes, width, height: 34 + notes.length * (NOTE_FONT + 4), start: i === start };
  });
  const widest = Math.max(...sizes.map((size) => size.width));
  const tallest = Math.max(...sizes.map((size) => size.height));
  const n = sizes.length;
  // Boxes on the ellipse must not touch, and arrows need room for their labels.
  const radii = {
    x: Math.max(widest * 2, (n * widest) / 4.2),
    y: Math.max(tallest * 3, 200, (n * tallest) / 3.4),
  };
  const centres = placeStates(n, start, refuge, drawn, radii);
  return sizes.map((size, i) => ({ ...size, ...(centres[i] ?? { x: 0, y: 0 }) }));
}

/** What is written into a state's box instead of being drawn. */
function notesOf(arrow: Arrow, refuge: number | null, table: Table): string[] {
  const whens = arrow.labels.map((label) => [label.when, ...label.tallies.map((t) => `tally ${t}`)].join(' '));
  if (arrow.to === arrow.from) return [`${whens.join('; ')}: timer restarts`];
  return arrow.to === refuge ? [`${whens.join('; ')} → ${table.states[refuge]?.name ?? ''}`] : [];
}

interface Line {
  readonly text: string;
  readonly bold: boolean;
}

interface PlacedLabel {
  readonly box: Box;
  readonly lines: readonly Line[];
}

/** The longest label first: it has the least choice. */
function placeLabels(drawn: readonly Arrow[], curves: readonly Curve[], taken: Box[]): PlacedLabel[] {
  const labels = drawn.map((arrow, i) => {
    const lines = arrow.labels.map(lineOf);
    const width =
      Math.max(...lines.map(({ text, bold }) => text.length * (bold ? 1.05 : 1))) * NOTE_FONT * CHARACTER + 4;
    return { lines, width, height: lines.length * (NOTE_FONT + 3), curve: curves[i] as Curve };
  });
  return labels
    .toSorted((a, b) => b.width * b.height - a.width * a.height)
    .map(({ lines, width, height, curve }) => {
      const box = placeLabel(curve, width, height, taken, curves);
      taken.push(box);
      return { box, lines };
    });
}

function lineOf({ when, tallies }: ArrowLabel): Line {
  return { text: tallies.length > 0 ? `${when} tally ${tallies.join(', ')}` : when, bold: tallies.length > 0 };
}

function makesTallies(arrow: Arrow): boolean {
  return arrow.labels.some((label) => label.tallies.length > 0);
}

function drawArrow(curve: Curve, strong: boolean): string {
  const { from, control, to } = curve;
  const tip = directionAt(curve, 1);
  const size = strong ? 11 : 9;
  const back = { x: to.x - tip.x * size, y: to.y - tip.y * size };
  const side = { x: -tip.y * size * 0.42, y: tip.x * size * 0.42 };
  const points = [to, { x: back.x + side.x, y: back.y + side.y }, { x: back.x - side.x, y: back.y - side.y }];
  return (
    `<path d="M${n(from.x)} ${n(from.y)}Q${n(control.x)} ${n(control.y)} ${n(back.x)} ${n(back.y)}" stroke-width="${strong ? 2.4 : 1.2}"/>` +
    `<polygon points="${points.map((p) => `${n(p.x)},${n(p.y)}`).join(' ')}" fill="currentColor" stroke="none"/>`
  );
}

function drawState(box: StateBox): string {
  const left = box.x - box.width / 2;
  const top = box.y - box.height / 2;
  const frame = (grow: number): string =>
    `<rect x="${n(left - grow)}" y="${n(top - grow)}" width="${n(box.width + 2 * grow)}" height="${n(box.height + 2 * grow)}" rx="${8 + grow}" stroke-width="1.4"/>`;
  const notes = box.notes.map((note, i) => drawText(box.x, top + 40 + i * (NOTE_FONT + 4), note, NOTE_FONT, false));
  // The start has a double frame.
  return [frame(0), box.start ? frame(-3.5) : '', drawText(box.x, top + 22, box.name, FONT, true), ...notes].join('');
}

function drawLabel(box: Box, lines: readonly Line[]): string {
  const top = box.y - box.height / 2;
  return lines
    .map((line, i) => drawText(box.x, top + NOTE_FONT - 1 + i * (NOTE_FONT + 3), line.text, NOTE_FONT, line.bold))
    .join('');
}

function drawText(x: number, y: number, text: string, size: number, bold: boolean): string {
  const weight = bold ? ' font-weight="600"' : '';
  return `<text x="${n(x)}" y="${n(y)}" text-anchor="middle" font-size="${size}"${weight} fill="currentColor" stroke="none">${xml(text)}</text>`;
}

/** The smallest frame round everything, with a margin. */
function frameOf(boxes: readonly Box[], curves: readonly Curve[]): Box {
  const xs = [
    ...boxes.flatMap((b) => [b.x - b.width / 2, b.x + b.width / 2]),
    ...curves.map((c) => (c.control.x * 2 + c.from.x + c.to.x) / 4),
  ];
  const ys = [
    ...boxes.flatMap((b) => [b.y - b.height / 2, b.y + b.height / 2]),
    ...curves.map((c) => (c.control.y * 2 + c.from.y + c.to.y) / 4),
  ];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return {
    x: (left + right) / 2,
    y: (top + bottom) / 2,
    width: right - left + 2 * MARGIN,
    height: bottom - top + 2 * MARGIN,
  };
}

/** A tenth of a pixel is enough, and keeps the text short. */
function n(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function xml(text: string): string {
  return text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}
