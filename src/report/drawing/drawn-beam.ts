/** The beams of a door as drawings need them: alike ones together, each with its line and what it looks into. */
import type { BeamLine, Point } from '../../geometry/beam-line.js';
import type { Design, DesignBeam, DesignDoor } from '../../scenario/schema.js';
import type { MountedBeam } from '../../sensors/mounted.js';
import { mountedBeams } from '../../simulate/plan.js';
import { html, type Markup } from '../html.js';
import { joined, plain } from '../words.js';
import { short } from './labels.js';
import { drawnAxis, outline, sightOf, type Box, type Sight } from './sight.js';
import { beamClass, px } from './svg.js';

export interface DrawnBeam {
  readonly mounted: MountedBeam;
  readonly beam: DesignBeam;
  /** A barrier's beam, or a ranger's axis as far as its range. */
  readonly line: BeamLine;
  /** Null for a barrier. */
  readonly sight: Sight | null;
  /** Indices in the door's list of those that look the same from here. */
  readonly indices: readonly number[];
  /** Their names, cut to what fits. */
  readonly label: string;
}

/** Beams that coincide as seen from the front or from above are one. */
export function drawnBeams(design: Design, door: DesignDoor, box: Box, seen: 'front' | 'above'): DrawnBeam[] {
  const groups = new Map<string, { first: MountedBeam; members: MountedBeam[] }>();
  for (const beam of mountedBeams(design, door)) {
    const { from, to } = beam.line;
    const ends = [from, to].map((p) => `${p.x} ${seen === 'front' ? p.z : p.y}`);
    const key = `${ends.join(' ')} ${beam.mount} ${beam.sensor.kind}`;
    const group = groups.get(key);
    if (group) group.members.push(beam);
    else groups.set(key, { first: beam, members: [beam] });
  }
  return [...groups.values()].flatMap(({ first, members }) => {
    const beam = door.beams[first.index];
    if (!beam) return [];
    const sight = sightOf(first.sensor, design.surroundings.temperature_c);
    return {
      mounted: first,
      beam,
      line: sight ? drawnAxis(first.line, sight.range_m, box) : first.line,
      sight,
      indices: members.map(({ index }) => index),
      label: short(joined(members.map(({ name }) => plain(name)))),
    };
  });
}

/** From metres to pixels, both seen from one side. */
export type Place = (p: Point) => readonly [number, number];

/** What a ranger looks into, shaded. */
export function wedge(
  { mounted, sight, indices }: DrawnBeam,
  box: Box,
  seen: 'front' | 'above',
  place: Place,
): Markup | null {
  if (!sight) return null;
  const points = outline(mounted.line, sight, box, seen).map(([a, b]) => {
    const [x, y] = place(seen === 'front' ? { x: a, y: 0, z: b } : { x: a, y: b, z: 0 });
    return `${px(x)} ${px(y)}`;
  });
  return html`<path class="sight sight-${(indices[0] ?? 0) % 4}" d="M${points.join('L')}Z"/>`;
}

/** Beams behind one another: the first whole, the second dashed on top of it, so both show. */
export function strokes({ line, sight, indices }: DrawnBeam, place: Place): Markup[] {
  const [[x0, y0], [x1, y1]] = [place(line.from), place(line.to)];
  return indices.map(
    (i) =>
      html`<path class="${beamClass(i)}${sight !== null && ' axis'}" d="M${px(x0)} ${px(y0)}L${px(x1)} ${px(y1)}"/>`,
  );
}

/** A ranger's box in the wood, turned to where it looks; sound has two waves before it. */
export function rangerMark({ mounted, line }: DrawnBeam, place: Place): Markup {
  const [[x0, y0], [x1, y1]] = [place(line.from), place(line.to)];
  const straightAtUs = Math.hypot(x1 - x0, y1 - y0) < 1;
  const waves = mounted.sensor.kind === 'ultrasonic-ranger';
  if (straightAtUs) return html`<rect class="emitter" x="${px(x0 - 5)}" y="${px(y0 - 5)}" width="10" height="10"/>`;
  const angle = (Math.atan2(y1 - y0, x1 - x0) * 180) / Math.PI;
  return html`<g transform="translate(${px(x0)} ${px(y0)}) rotate(${px(angle)})"><rect class="emitter" x="-11" y="-6.5" width="11" height="13"/>${waves && html`<path class="wave" d="M4 -5q3 5 0 10m4 -13q5 8 0 16"/>`}</g>`;
}
