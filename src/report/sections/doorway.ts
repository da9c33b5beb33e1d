/** The doors drawn to scale, with their beams in figures beside the drawing. */
import type { Design, DesignDoor } from '../../scenario/schema.js';
import type { Figures, Silhouette } from '../../score/figures.js';
import type { DoorMetrics, Metrics } from '../../score/metrics-schema.js';
import { estimateCell } from '../cells.js';
import { frontView } from '../drawing/front.js';
import { planView, spacingWords } from '../drawing/plan.js';
import { html, scrollable, type Markup } from '../html.js';
import { capital, decimal, headlineLogic, joined, metres, named, plural, whoWords } from '../words.js';

/** Doors drawn; the others are in the tables. */
const MOST_DRAWN = 12;

export function doorwaySection(design: Design, metrics: Metrics, figures: Figures): Markup {
  const people = ['adult', 'child']
    .map((who) => figures.silhouettes.find((s) => s.who === who))
    .filter((s): s is Silhouette => s !== undefined);
  const shown = people.length > 0 ? people : figures.silhouettes.slice(0, 2);
  const logic = headlineLogic(design);
  return html`<section aria-labelledby="doorways"><h2 id="doorways">The doorway to scale</h2>
${design.doors.slice(0, MOST_DRAWN).map((door, i) =>
  doorway(
    door,
    i,
    shown,
    metrics.doors.find((d) => d.door === door.name && d.logic === logic),
    design,
  ),
)}
${design.doors.length > MOST_DRAWN && html`<p>${plural(design.doors.length - MOST_DRAWN, 'more door')} are not drawn; the tables have them.</p>`}
</section>`;
}

function doorway(
  door: DesignDoor,
  index: number,
  people: readonly Silhouette[],
  metrics: DoorMetrics | undefined,
  design: Design,
): Markup {
  return html`<article class="doorway"><h3>Door ${named(door.name)}, from ${named(door.from)} to ${named(door.to)}</h3>
<div class="side">
<figure><figcaption>Seen walking forward. ${capital(joined(people.map(drawn)))}. Triangles are emitters, bars receivers.</figcaption>${frontView(`front-${index}`, door, people)}</figure>
<div><figure><figcaption>From above, larger scale. Frame ${metres(door.jamb_depth_m)} deep. ${spacingWords(door)}</figcaption>${planView(`plan-${index}`, door)}</figure>
${scrollable(`Beams of door ${named(door.name)}`, beamTable(door, metrics))}
<ul class="heads">${meetings(door, people)}</ul></div></div>
<p class="key">${readBy(door, design)}</p></article>`;
}

const who = (s: Silhouette): string => (s.who === 'adult' || s.who === 'child' ? s.who : whoWords(s.who));
const drawn = (s: Silhouette): string => `${who(s)} of ${metres(Math.round(s.stature_m * 100) / 100)}`;

/** Where on the people drawn each height of beam passes, from stature alone. */
function meetings(door: DesignDoor, people: readonly Silhouette[]): Markup[] {
  const lowest = (b: DesignDoor['beams'][number]): number => Math.min(b.height_m, b.far_height_m ?? b.height_m);
  const heights = [...new Set(door.beams.map(lowest))].sort((a, b) => b - a);
  return heights.map((height) => {
    const beams = joined(door.beams.filter((b) => lowest(b) === height).map((b) => named(b.name)));
    const where = people.map((s) => {
      const over = height - s.stature_m;
      const body = `the ${who(s)} drawn`;
      return over > 0
        ? `${metres(Math.round(over * 100) / 100)} above the head of ${body}`
        : `${body} at ${decimal((100 * height) / s.stature_m, 0)} % of stature`;
    });
    return html`<li>${beams} at ${metres(height)}: ${joined(where)}.</li>`;
  });
}

function beamTable(door: DesignDoor, metrics: DoorMetrics | undefined): Markup {
  return html`<table><caption>Beams</caption><thead><tr><th scope="col">beam</th><th scope="col">sensor</th><th scope="col">height</th><th scope="col">along the walk</th><th scope="col">breaks per crossing</th></tr></thead>
<tbody>${door.beams.map((b) => {
    const breaks = metrics?.breaks_per_crossing.find((x) => x.beam === b.name);
    return html`<tr><th scope="row">${named(b.name)}</th><td>${named(b.sensor)}</td><td>${both(b.height_m, b.far_height_m ?? b.height_m)}</td><td>${both(b.at_m, b.far_at_m ?? b.at_m)}</td>${
      breaks === undefined ? html`<td class="num none">not known</td>` : estimateCell(breaks.estimate)
    }</tr>`;
  })}</tbody></table>`;
}

const both = (near: number, far: number): string =>
  near === far ? metres(near) : `${metres(near)}, far end ${metres(far)}`;

function readBy(door: DesignDoor, design: Design): string {
  const poll = design.controllers.find((c) => c.name === door.controller)?.poll_ms;
  return poll === undefined
    ? 'The beams are wired to interrupts: every edge is seen.'
    : `The beams are read together every ${decimal(poll)}\u00a0ms.`;
}
