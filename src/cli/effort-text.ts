/** The plan's facts and the effort of installing, as `jambeam check` prints them: the report's tables in brief, for its words in effort-words.ts. */
import { runHeight_m } from '../effort/cables.js';
import type { Effort } from '../effort/effort.js';
import { type Share, holesIn } from '../effort/share.js';
import { area_m2, storeyWords } from '../report/drawing/house-plan.js';
import {
  UNDO,
  holesWords,
  hoursWords,
  lengthWords,
  madeUpMark,
  minutesWords,
  money,
  pricesWords,
  whyNoLengths,
} from '../report/effort-words.js';
import { bare, count, decimal, joined, metres, plain, plural } from '../report/words.js';
import { planOf } from '../scenario/plan-of.js';
import type { Design } from '../scenario/schema.js';
import type { Paint } from './io.js';
import { columns, folded, indented } from './lines.js';

/** Amounts on a terminal: without the marks that isolate names on a page. */
const amount = (cents: number, currency: string | null): string => bare(money(cents, currency));

/** Rooms with their areas, doors, and cables; empty without a plan. */
export function planText(design: Design, effort: Effort, paint: Paint): string {
  const { plan } = planOf(design);
  if (!plan) return '';
  const storeys = [...new Set(plan.rooms.map(({ storey }) => storey))].sort((a, b) => a - b);
  const rooms = storeys.map((storey) => {
    const those = plan.rooms.filter((room) => room.storey === storey);
    const words = those.map((room) => `${plain(room.name)} ${decimal(area_m2(room), 1)}\u00a0m²`);
    return folded(
      `${bare(storeyWords(storey))}: ${joined(words)}. Cables run at ${metres(runHeight_m(plan, storey))}.`,
      '  ',
    );
  });
  const rows = effort.doors.flatMap(({ door, ends }) =>
    ends.map((end) => [
      plain(door),
      `${plain(end.beam)}${end.end === 'far' ? ' receiver' : ''}`,
      end.mount.replace('-', ' '),
      plain(end.controller),
      bare(lengthWords(end.drilled_m)),
      bare(lengthWords(end.surface_m)),
    ]),
  );
  const head = ['door', 'end', 'in', 'controller', 'drilled', 'surface'].map((word) => paint.bold(word));
  const table = columns([head, ...rows], ['left', 'left', 'left', 'left', 'right', 'right']);
  return `${paint.bold(paint.cyan('Plan'))}\n${rooms.join('')}${indented(table)}`;
}

export function effortText(design: Design, effort: Effort, paint: Paint): string {
  const { total, shared, doors, currency, controllers } = effort;
  const row = (what: string, of: (share: Share) => string) => [what, of(total.drilled), of(total.surface)];
  const cost = total.drilled.work_cents !== null;
  const whole = columns(
    [
      ['', paint.bold('drilled'), paint.bold('surface-mounted')],
      row('holes', ({ holes }) => count(holesIn(holes))),
      row('cable', ({ cable_m }) => lengthWords(cable_m)),
      row('raceway', ({ raceway_m }) => (raceway_m === 0 ? 'none' : lengthWords(raceway_m))),
      row(`parts${madeUpMark(effort)}`, ({ parts_cents }) => amount(parts_cents, currency)),
      row('work', ({ minutes }) => hoursWords(minutes)),
      ...(cost ? [row('cost of work', ({ work_cents }) => amount(work_cents ?? 0, currency))] : []),
      ...(cost ? [row('together', (one) => amount(one.parts_cents + (one.work_cents ?? 0), currency))] : []),
    ],
    ['left', 'right', 'right'],
  );
  const each = [...doors.map((one) => ({ ...one, name: `door ${plain(one.door)}` })), { ...shared, name: 'shared' }];
  const byDoor = columns(
    [
      ['', 'holes', 'cable', 'parts', 'work', 'parts', 'work'].map((word) => paint.bold(word)),
      ...each.map(({ name, drilled, surface }) => [
        name,
        count(holesIn(drilled.holes)),
        name === 'shared' ? '–' : lengthWords(drilled.cable_m),
        amount(drilled.parts_cents, currency),
        hoursWords(drilled.minutes),
        amount(surface.parts_cents, currency),
        hoursWords(surface.minutes),
      ]),
    ],
    ['left', 'right', 'right', 'right', 'right', 'right', 'right'],
  );
  const pins = controllers.map((c) => {
    const free = (n: number | null) => (n === null ? '' : ` of ${n} free`);
    return `${plain(c.controller)}: ${plural(c.sensors, 'sensor')}, ${plural(c.digital_pins, 'digital pin')}${free(c.free_digital_pins)}, ${plural(c.analogue_inputs, 'analogue input')}${free(c.free_analogue_inputs)}.`;
  });
  const assumed = effort.power.filter((line) => line.assumed).map((line) => plain(line.of));
  const sentences = [
    `Drilled, holes are ${bare(holesWords(total.drilled.holes))}.`,
    whyNoLengths(effort),
    pricesWords(effort),
    minutesWords(design),
    ...pins,
    `Sensors and controllers take ${decimal(effort.watt_hours_a_day, 2)}\u00a0watt-hours a day${assumed.length > 0 ? ` (assumed of ${joined(assumed)})` : ''}.`,
    UNDO.drilled,
    UNDO.surface,
  ].filter((sentence) => sentence !== null);
  return (
    `${paint.bold(paint.cyan('Effort'))}\n${indented(whole)}\n` +
    `  ${paint.bold('Door by door, drilled; parts and work surface-mounted behind')}\n${indented(byDoor)}\n` +
    sentences.map((sentence) => folded(bare(sentence), '  ')).join('')
  );
}
