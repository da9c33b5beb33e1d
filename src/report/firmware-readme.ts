/**
 * The page that lies beside the source for a door's controller: how to wire it, what to call and when, and what to mind.
 * The only one of those files that holds a user's words: names, which have no other characters than letters, digits,
 * spaces, - and _, in type.
 */
import { tableBytes } from '../counter/c99/table-data.js';
import { afterRule } from '../counter/table/table.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { Firmware } from '../simulate/firmware/firmware.js';
import { withNumber } from '../simulate/firmware/firmware.js';
import type { FirmwarePlan } from '../simulate/firmware/plan.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { learnReadings } from '../sensors/c99/switch-data.js';
import { cautionsFor } from './cautions.js';
import { callsTable } from './firmware-calls.js';
import { exampleMain } from './firmware-main.js';
import { wiring } from './firmware-wiring.js';
import { kindWords, placeWords } from './sensor-words.js';
import { count, decimal, metres } from './words.js';

export interface FirmwareOf {
  readonly design: Design;
  readonly door: DesignDoor;
  /** Name of the logic. */
  readonly logic: string;
  readonly firmware: Firmware;
}

export function firmwareReadme({ design, door, logic, firmware }: FirmwareOf): string {
  const { plan, names } = firmware;
  const text = `# People at one doorway, counted in C99

Door \`${door.name}\`, logic \`${logic}\`. *Forward* is from \`${door.from}\` to \`${door.to}\`, *backward* the other way.

| file | what it is |
| --- | --- |
| \`${names.header}\`, \`${names.source}\` | the counter: put both into your program |
| \`${names.testProgram}\`, \`${names.vectors}\` | a test for your computer; not for the controller |

No heap, no floating point, and no call that waits. The table of states takes ${count(tableBytes(plan.table))} bytes of constants, what is
remembered of the door about ${count(stateBytes(plan))} bytes. Some controllers copy constants into their working memory.

## First, on your computer

\`\`\`sh
cc -std=c99 ${names.source} ${names.testProgram} -o door_test && ./door_test ${names.vectors}
\`\`\`

It plays calls from the file and compares what comes back with what the simulation said. The last line has to end in
\`0 not as expected\`. Run it again with your controller's own compiler settings where you can.

## What to mind

${cautionsFor(design)
  .map(({ title, text: words }) => `- **${title}.** ${words.replace('this report does not', 'this page does not')}`)
  .join('\n')}
- **Yours to check.** This source does what the simulation's logic does, on the same inputs. Whether your sensors give such
  inputs is another matter: count walks through the built door before you trust it.

## Wiring

${beamRows(design, door)}

In all calls a set of beams is one byte: bit 0 is the first beam of this table, bit 1 the second. A bit is 1 while its beam is
*broken*. Swap two beams and everybody goes the other way.

${wiring(plan)}

## What to call

${callsTable(plan)}

Times are \`uint32_t\` microseconds of any clock that counts on and wraps to 0 after 4,294,967,295 (every 71.6 minutes). Milliseconds
times 1000, reckoned in \`uint32_t\`, will do where no finer clock is there. **Call something that takes the time at least every 30 minutes**,
the tick if nothing happens; every pass of the loop is best. Call from one place only: not from an interrupt as well as from
the loop.

What comes back, \`door_tallies\`, is how many people *this call* counted: mostly none, at times one. Add it up yourself.

## A program

Call \`setup()\` once and \`loop()\` for ever. The functions at the top are yours to write.

\`\`\`c
${exampleMain(plan)}\`\`\`

${timing(plan)}
- **After a restart** begin with \`door_start()\`. A beam that is broken then is taken for broken at the first call after it; what went
  on before is not known.
- **A count at zero** that counts one backward has missed somebody earlier. Most keep it at zero.

## The states, by number

The source knows states by their numbers. In \`${names.source}\` the arrays \`states_…\` hold them, one row a state.

| number | state | gives up after |
| --- | --- | --- |
${plan.table.states.map((state, i) => `| ${i} | \`${state.name}\` | ${after(afterRule(state)?.after_ms)} |`).join('\n')}
`;
  return withNumber(text, plan.number);
}

function beamRows(design: Design, door: DesignDoor): string {
  const rows = door.beams.map((beam, i) => {
    const { kind } = sensorNamed(design, beam.sensor);
    const pins = beam.pins?.join(', ') ?? 'as you like';
    return `| ${i} | \`${beam.name}\` | ${kindWords(kind)}, ${placeWords(beam, kind)}, ${metres(beam.height_m)} above the floor | ${pins} |`;
  });
  return `| bit | beam | sensor | pins |\n| --- | --- | --- | --- |\n${rows.join('\n')}`;
}

function timing({ barriers, rangers, turns, poll_us }: FirmwarePlan): string {
  const lines: string[] = [];
  if (barriers !== 0)
    lines.push(
      poll_us === null
        ? 'In the scenario each change of a light barrier counts at its own instant. A loop that comes round every millisecond is as good. Where yours is slower, let an interrupt note time and levels in a short queue, and hand them on from the loop in their order, before it makes any other call: time never goes back.'
        : `In the scenario the light barriers are read together every ${decimal(poll_us / 1000)} ms: that is what \`DOOR_POLL_US\` is for.`,
    );
  if (rangers.length > 0) {
    const order = turns.map(({ beams }) => bitsIn(beams).join(' and '));
    lines.push(
      `Turns are those of the scenario’s controller: beam ${order.join(', then beam ')}, and again. \`door_turn()\` says when; turns of rangers at other doors are kept as pauses. Rangers of one turn are started together. What the loop does besides adds to the time from reading to reading: the scenario has it as \`loop_ms\` and \`serial_characters\`.`,
    );
    const longest = Math.max(...rangers.map(({ sensor }) => learnReadings(sensor.switching)));
    if (longest > 0)
      lines.push(
        `The first ${count(longest)} readings of a ranger are the background. Keep the doorway clear after switching on until they are taken.`,
      );
  }
  return lines.map((line) => `- ${line}`).join('\n');
}

function bitsIn(mask: number): number[] {
  return [0, 1, 2, 3, 4, 5, 6, 7].filter((bit) => (mask & (1 << bit)) !== 0);
}

function after(after_ms: number | undefined): string {
  return after_ms === undefined ? 'never' : `${decimal(after_ms / 1000)} s`;
}

/** As a 32-bit controller lays it out. */
function stateBytes({ rangers }: FirmwarePlan): number {
  const settings = rangers.map(({ sensor }) => sensor.switching);
  const window = Math.max(0, ...settings.map(({ median_of }) => median_of));
  const learn = Math.max(1, ...settings.map(learnReadings));
  const perRanger = 16 + 4 * window + 4 * learn;
  return 8 + (rangers.length > 0 ? 12 + rangers.length * (4 + perRanger) : 0);
}
