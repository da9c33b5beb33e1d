/** The functions of a door's counter as a table of Markdown: when to call each, and what it gives back. */
import type { FirmwarePlan } from '../simulate/firmware/plan.js';

export function callsTable({ barriers, rangers }: FirmwarePlan): string {
  const rows: [string, string, string][] = [
    ['door_start(&door, now)', 'once, before all others', 'nothing'],
    ...(barriers === 0
      ? []
      : [
          [
            'door_levels(&door, now, broken)',
            `with the ${rangers.length > 0 ? 'light barriers’ ' : ''}levels, whenever they were read; unchanged ones do no harm`,
            'how many people it counted',
          ] as [string, string, string],
        ]),
    ...(rangers.length === 0 ? [] : TURNS),
    ['door_tick(&door, now)', 'when there is nothing else to say', 'how many people a timeout counted'],
    [
      'door_wait_us(&door, now)',
      'before the controller sleeps',
      'microseconds until a timeout; `DOOR_NEVER`: no timeout runs',
    ],
    ['door_broken(&door)', 'for a lamp, or to look at', 'the beams that are broken, as a set'],
  ];
  return `| call | when | gives back |\n| --- | --- | --- |\n${rows.map(([call, ...rest]) => `| \`${call}\` | ${rest.join(' | ')} |`).join('\n')}`;
}

const TURNS: [string, string, string][] = [
  ['door_turn(&door, now)', 'in every pass of the loop', 'the beams whose rangers are to be read now; 0: none yet'],
  ['door_reading(&door, beam, distance_um)', 'for each ranger of the turn', 'nothing'],
  ['door_turn_done(&door, now)', 'when all of the turn have answered, or the time is up', 'how many people it counted'],
];
