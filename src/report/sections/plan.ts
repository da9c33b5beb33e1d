/** The plan of the house: a drawing for each storey, and every end of a cable with its length. */
import { cabling, runHeight_m } from '../../effort/cables.js';
import { type Effort, effortOf } from '../../effort/effort.js';
import { planOf } from '../../scenario/plan-of.js';
import type { Design } from '../../scenario/schema.js';
import { housePictures, storeyDrawings, storeyWords } from '../drawing/house-plan.js';
import { lengthWords, whyNoLengths } from '../effort-words.js';
import { html, scrollable, type Markup } from '../html.js';
import { capital, joined, metres, named, plural } from '../words.js';

/** Nothing without a plan: the section on effort says what is missing. */
export function planSection(design: Design, effort: Effort = effortOf(design)): Markup | null {
  const { plan } = planOf(design);
  if (!plan) return null;
  const drawings = storeyDrawings(design, plan, cabling(design, plan, 'drilled'));
  const runs = drawings.map(
    ({ storey }) => `${metres(runHeight_m(plan, storey))} on ${storey === 0 ? 'the ' : ''}${storeyWords(storey)}`,
  );
  const why = whyNoLengths(effort);
  return html`<section aria-labelledby="plan"><h2 id="plan">The house from above</h2>
<p class="key">To one scale; y is up. Lines across a door are its beams, an arc is the swing of its leaf, four strokes are stairs. Dashed: cables along the walls, where holes may be drilled; a ring is where they leave the storey.</p>
<div class="side">${housePictures('house', drawings).map((drawn) => html`<figure>${drawn}</figure>`)}</div>
<h3>Cables</h3>
<p>They run over the doors: ${joined(runs)}. Each end has a cable of its own, up from the sensor, along the walls, and down to the controller.${why !== null && ` ${why}`}</p>
<details class="long"><summary>${plural(effort.doors.flatMap(({ ends }) => ends).length, 'cable')}, one by one</summary>${scrollable(
    'Cables',
    html`<table><caption class="hidden">Cables</caption><thead><tr><th scope="col">door</th><th scope="col">beam</th><th scope="col">in</th><th scope="col">height</th><th scope="col">to</th><th scope="col">drilled</th><th scope="col">surface-mounted</th></tr></thead>
<tbody>${effort.doors.flatMap(({ door, ends }) =>
      ends.map(
        (end) =>
          html`<tr data-door="${door}"><th scope="row">${named(door)}</th><td>${named(end.beam)}${end.end === 'far' && ', receiver'}</td><td>${capital(end.mount.replace('-', ' '))}</td><td>${metres(end.height_m)}</td><td>${named(end.controller)}</td><td>${lengthWords(end.drilled_m)}</td><td>${lengthWords(end.surface_m)}</td></tr>`,
      ),
    )}</tbody></table>`,
  )}</details></section>`;
}
