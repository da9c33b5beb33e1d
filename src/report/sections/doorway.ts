/** The doors drawn to scale, with their beams in figures beside the drawing. */
import type { Design, DesignDoor } from '../../scenario/schema.js';
import type { Figures, Silhouette } from '../../score/figures.js';
import type { DoorMetrics, Metrics } from '../../score/metrics-schema.js';
import type { MountedBeam } from '../../sensors/mounted.js';
import { mountedBeams } from '../../simulate/plan.js';
import { worstDoor } from '../causes.js';
import { estimateCell } from '../cells.js';
import { frontView } from '../drawing/front.js';
import { peopleDrawn } from '../drawing/people.js';
import { planView, spacingWords } from '../drawing/plan.js';
import { html, scrollable, type Markup } from '../html.js';
import { readWords } from '../reading-words.js';
import { kindWords, placeWords } from '../sensor-words.js';
import { decimal, headlineLogic, joined, metres, named, oneWords, plural } from '../words.js';

/** Doors drawn; the others are in the tables. */
const MOST_DRAWN = 12;

/** The door the first screen shows: the one where most goes wrong, or the first. */
export function doorSeenFirst(design: Design, metrics: Metrics): DesignDoor | undefined {
  const worst = worstDoor(design, metrics);
  return design.doors.find(({ name }) => name === worst?.door) ?? design.doors[0];
}

/** A door from the front and from above, with what the symbols mean. */
export function doorFigures(design: Design, door: DesignDoor, people: readonly Silhouette[]): Markup {
  return html`<figure>${frontView('seen-front', door, people, design)}<figcaption>To scale, seen walking forward: ${joined(people.map(drawn))}. ${symbolWords(mountedBeams(design, door))}</figcaption></figure>
${planFigure('seen-plan', door, design)}`;
}

function planFigure(id: string, door: DesignDoor, design: Design): Markup {
  return html`<figure>${planView(id, door, design)}<figcaption>From above, larger. Frame ${metres(door.jamb_depth_m)} deep. ${spacingWords(door)}</figcaption></figure>`;
}

export function doorwaySection(design: Design, metrics: Metrics, figures: Figures): Markup {
  const people = peopleDrawn(figures);
  const logic = headlineLogic(design);
  const seen = doorSeenFirst(design, metrics);
  const several = design.doors.length > 1;
  return html`<section aria-labelledby="doorways"><h2 id="doorways">${several ? 'All doors to scale' : 'The doorway to scale'}</h2>
${design.doors.slice(0, MOST_DRAWN).map((door, i) =>
  doorway(
    door,
    i,
    people,
    metrics.doors.find((d) => d.door === door.name && d.logic === logic),
    design,
    door === seen,
  ),
)}
${design.doors.length > MOST_DRAWN && html`<p>${plural(design.doors.length - MOST_DRAWN, 'more door')} are not drawn; the tables have them.</p>`}
</section>`;
}

/** @param seen whether the first screen shows it already */
function doorway(
  door: DesignDoor,
  index: number,
  people: readonly Silhouette[],
  metrics: DoorMetrics | undefined,
  design: Design,
  seen: boolean,
): Markup {
  const beams = mountedBeams(design, door);
  const figures = html`${scrollable(`Beams of door ${named(door.name)}`, beamTable(door, beams, metrics))}
<ul class="heads">${meetings(beams, people)}</ul>`;
  return html`<article class="doorway" data-door="${door.name}"><h3>Door ${named(door.name)}, from ${named(door.from)} to ${named(door.to)}</h3>
${
  seen
    ? html`<p class="key">Drawn <a href="#seen">at the top of the page</a>.</p>${figures}`
    : html`<div class="side"><figure>${frontView(`front-${index}`, door, people, design)}<figcaption>Seen walking forward.</figcaption></figure>
<div>${planFigure(`plan-${index}`, door, design)}${figures}</div></div>`
}
<p class="key">${readWords(design, door)}</p></article>`;
}

/** 'adult', 'medium dog'; somebody with a name of their own by it. */
const who = (s: Silhouette): string => oneWords(s.who).replace(/^an? /, '');
const drawn = (s: Silhouette): string => `${who(s)} of ${metres(Math.round(s.stature_m * 100) / 100)}`;

/** What the symbols of a drawing mean: only those that are in it. */
function symbolWords(beams: readonly MountedBeam[]): string {
  const kinds = new Set(beams.map(({ sensor }) => sensor.kind));
  const seen = [
    ...(kinds.has('ultrasonic-ranger')
      ? ['An ultrasonic ranger’s cone is drawn to half its power; strong echoes come from beside it too.']
      : []),
    ...(kinds.has('time-of-flight-ranger') ? ['A time-of-flight ranger looks into its cone.'] : []),
    ...(kinds.has('triangulation-ranger') ? ['A triangulation ranger looks at its spot of light.'] : []),
  ];
  return [
    ...(kinds.has('light-barrier') ? ['Triangles are emitters, bars receivers.'] : []),
    ...(seen.length > 0
      ? ['Boxes are rangers, each with its axis; shaded is what it looks into, as far as its range.', ...seen]
      : []),
  ].join(' ');
}

/** What is met at a height: a barrier at its lowest, a ranger's axis half-way through the opening, or where it hangs. */
function meetingOf({ line, mount, sensor }: MountedBeam): { how: 'beam' | 'axis' | 'lintel'; height_m: number } {
  const [from, to] = [line.from.z, line.to.z];
  if (sensor.kind === 'light-barrier') return { how: 'beam', height_m: Math.min(from, to) };
  if (mount === 'lintel') return { how: 'lintel', height_m: from };
  if (Math.abs(from - to) < 1e-9) return { how: 'beam', height_m: from };
  return { how: 'axis', height_m: Math.round((from + to) * 50) / 100 };
}

const MEETING = {
  beam: (names: readonly string[]): string => joined(names),
  axis: (names: readonly string[]): string =>
    `Half-way through the opening the ${names.length === 1 ? 'axis' : 'axes'} of ${joined(names)}`,
  lintel: (names: readonly string[]): string => `${joined(names)} under the lintel`,
} as const;

/** Where on the people drawn each height of beam passes, from stature alone. */
function meetings(beams: readonly MountedBeam[], people: readonly Silhouette[]): Markup[] {
  const groups = new Map<string, { names: string[]; how: keyof typeof MEETING; height: number }>();
  for (const beam of beams) {
    const { how, height_m } = meetingOf(beam);
    const group = groups.get(`${how} ${height_m}`);
    if (group) group.names.push(named(beam.name));
    else groups.set(`${how} ${height_m}`, { names: [named(beam.name)], how, height: height_m });
  }
  const sorted = [...groups.values()].sort((a, b) => b.height - a.height);
  return sorted.map(({ names, how, height }) => {
    const what = MEETING[how](names);
    const where = people.map((s) => {
      const over = height - s.stature_m;
      const body = who(s) === oneWords(s.who) ? who(s) : `the ${who(s)} drawn`;
      return over > 0
        ? `${metres(Math.round(over * 100) / 100)} above the head of ${body}`
        : `${body} at ${decimal((100 * height) / s.stature_m, 0)} % of stature`;
    });
    return html`<li>${what} at ${metres(height)}: ${joined(where)}.</li>`;
  });
}

function beamTable(door: DesignDoor, beams: readonly MountedBeam[], metrics: DoorMetrics | undefined): Markup {
  return html`<table><caption>Beams</caption><thead><tr><th scope="col">beam</th><th scope="col">sensor</th><th scope="col">height</th><th scope="col">along the walk</th><th scope="col">breaks per crossing</th></tr></thead>
<tbody>${beams.map(({ index, sensor: { kind } }) => {
    const b = door.beams[index];
    if (!b) return null;
    const breaks = metrics?.breaks_per_crossing.find((x) => x.beam === b.name);
    const own = b.sensor === kind ? '' : ` ${named(b.sensor)}`;
    return html`<tr><th scope="row">${named(b.name)}</th><td>${kindWords(kind)}${own}<small>${placeWords(b, kind)}</small></td><td>${both(b.height_m, b.far_height_m ?? b.height_m)}</td><td>${both(b.at_m, b.far_at_m ?? b.at_m)}</td>${
      breaks === undefined ? html`<td class="num none">not known</td>` : estimateCell(breaks.estimate)
    }</tr>`;
  })}</tbody></table>`;
}

const both = (near: number, far: number): string =>
  near === far ? metres(near) : `${metres(near)}, far end ${metres(far)}`;
