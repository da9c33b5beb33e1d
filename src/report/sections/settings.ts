/** The sensors as set, and the air and light around them; and what depends on how clothes take sound or light. */
import type { z } from 'zod';
import type { Design } from '../../scenario/schema.js';
import { peel } from '../../engine/peel.js';
import type { Figures } from '../../score/figures.js';
import { sensorSchema, type Sensor } from '../../sensors/schema.js';
import { speedOfSound } from '../../sensors/ultrasonic/air.js';
import { sensorNamed } from '../../scenario/sensor-named.js';
import { estimateCell, intervalNote } from '../cells.js';
import { html, scrollable, type Markup } from '../html.js';
import { kindWords, kindsUsed } from '../sensor-words.js';
import { switchingWords } from '../switching-words.js';
import { capital, decimal, joined, named, plural } from '../words.js';

/** Everything a scenario sets about its sensors. */
export function sensorSettings(design: Design): Markup {
  const surroundings = surroundingsWords(design);
  return html`<h3>The sensors as set</h3>
${surroundings !== null && html`<p>${surroundings}</p>`}
${namesUsed(design).map((name) => settingsOf(design, name))}`;
}

/** Names of sensors in use, each once. */
const namesUsed = (design: Design): string[] => [
  ...new Set(design.doors.flatMap((door) => door.beams.map((b) => b.sensor))),
];

function surroundingsWords(design: Design): string | null {
  const kinds = kindsUsed(design);
  const sound = kinds.includes('ultrasonic-ranger');
  const light = kinds.includes('triangulation-ranger') || kinds.includes('time-of-flight-ranger');
  const { temperature_c, humidity_percent, pressure_kpa, sunlight_klx } = design.surroundings;
  const parts = [
    ...(sound
      ? [
          `air of ${decimal(temperature_c, 1)}\u00a0°C, ${decimal(humidity_percent, 1)}\u00a0% relative humidity and ${decimal(pressure_kpa)}\u00a0kPa, in which sound travels at ${decimal(speedOfSound(temperature_c), 1)}\u00a0m/s`,
        ]
      : []),
    ...(light ? [`daylight of ${decimal(sunlight_klx)}\u00a0klx on what optical rangers look at`] : []),
  ];
  return parts.length === 0 ? null : `${capital(joined(parts))}; the same all the time.`;
}

function settingsOf(design: Design, name: string): Markup {
  const sensor = sensorNamed(design, name);
  const kind = kindWords(sensor.kind);
  const title = name === sensor.kind ? capital(kind) : `${capital(kind)} ${named(name)}`;
  const rows = settingRows(sensor);
  return html`<h4>${title}</h4>${sensor.kind !== 'light-barrier' && html`<p>${switchingWords(sensor.switching)}</p>`}
<details><summary>${plural(rows.length, 'setting')} of ${kind}${name !== sensor.kind && ` ${named(name)}`}</summary>${scrollable(
    `Settings: ${title}`,
    html`<table class="settings"><caption class="hidden">Settings: ${title}</caption><thead><tr><th scope="col">setting</th><th scope="col">value</th><th scope="col">meaning</th></tr></thead>
<tbody>${rows.map((r) => html`<tr><th scope="row"><code>${r.key}</code></th><td>${r.value}</td><td>${r.meaning}</td></tr>`)}</tbody></table>`,
  )}</details>`;
}

interface Row {
  readonly key: string;
  readonly value: string;
  readonly meaning: string;
}

/** Settings with what the schema says of them. How readings switch is in words above. */
function settingRows(sensor: Sensor): Row[] {
  const option = sensorSchema.options.find((o) => o.shape.kind.value === sensor.kind);
  const shape = (option?.shape ?? {}) as Readonly<Record<string, z.ZodType>>;
  return Object.entries(sensor).flatMap(([key, value]): Row[] => {
    const schema = shape[key];
    if (!schema || key === 'kind' || key === 'switching' || value === undefined) return [];
    const { meta } = peel(schema);
    return [{ key, value: valueWords(value, meta.unit), meaning: meta.description ?? '' }];
  });
}

const BARE = new Set(['share', 'm/m']);

function valueWords(value: unknown, unit: string | undefined): string {
  if (typeof value === 'number' && unit === 'deg') return `${decimal(value, 3)}°`;
  if (typeof value === 'number')
    return unit === undefined || BARE.has(unit) ? decimal(value, 6) : `${decimal(value, 6)}\u00a0${unit}`;
  if (Array.isArray(value)) return plural(value.length, 'row');
  if (typeof value === 'object' && value !== null)
    return Object.entries(value)
      .map(([key, inner]) => `${key} ${valueWords(inner, undefined)}`)
      .join(', ');
  return String(value);
}

const CLOTHES = {
  least: 'everybody’s clothes take the least assumed',
  'as drawn': 'each body draws its own between the two, as in the headline',
  most: 'everybody’s clothes take the most assumed',
} as const;

/** The headline again with the least and the most that clothes are assumed to take. */
export function clothingTable(figures: Figures): Markup | null {
  const runs = figures.clothing ?? [];
  const first = runs[0];
  if (first === undefined) return null;
  const label = 'Wrong per 100 crossings by what clothes take';
  return html`<h3>How much clothes take</h3>
<p>The headline rests on an assumption: how much of a ranger’s sound or light is lost in people’s clothes. Here the first ${plural(first.replicates, 'replicate')} ran again with everybody at either end of it, and otherwise the same people and the same chance. Where the rows differ much, measure with your own clothes before you trust the headline.</p>
${scrollable(
  label,
  html`<table><caption class="hidden">${label}</caption><thead><tr><th scope="col">clothes</th><th scope="col">wrong per 100 crossings</th></tr></thead>
<tbody>${runs.map((r) => html`<tr><th scope="row">${r.what}<small>${CLOTHES[r.what]}</small></th>${estimateCell(r.wrong_per_100)}</tr>`)}</tbody></table>`,
)}${intervalNote(runs.map((r) => r.wrong_per_100))}`;
}
