/** What a replayed log came to, in words for a terminal. */
import type { Design } from '../../scenario/schema.js';
import type { ReplayedLog } from '../../score/figures.js';
import { repairSentences } from '../../report/log-words.js';
import { count, decimal, plain, plural } from '../../report/words.js';
import { columns, folded } from '../lines.js';
import type { ReplayResult, Watched } from './job.js';

/** '  0:12:03.4  front  forward  four-level   hall 3'. */
export function watchedLine({ time_us, door, logic, direction, rooms }: Watched, design: Design): string {
  const counts = rooms.map((persons, room) => `${plain(design.rooms[room]!.name)} ${persons}`).join('  ');
  return `${clock(time_us)}  ${plain(design.doors[door]!.name)}  ${direction.padEnd(8)}  ${plain(design.logics[logic]!.name)}   ${counts}\n`;
}

function clock(time_us: number): string {
  const tenths = Math.floor(time_us / 100_000);
  const [hours, minutes, seconds] = [
    Math.floor(tenths / 36_000),
    Math.floor(tenths / 600) % 60,
    Math.floor(tenths / 10) % 60,
  ];
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${String(hours).padStart(3)}:${two(minutes)}:${two(seconds)}.${tenths % 10}`;
}

/** What was counted, where nobody says what is true. */
export function countsText({ design, counted, rooms, log }: ReplayResult): string {
  const rows = design.doors.flatMap((door, d) =>
    design.logics.map((logic, l) => {
      const { forward, backward } = counted[d]![l]!;
      return [plain(door.name), plain(logic.name), count(forward), count(backward)];
    }),
  );
  const last = design.logics.flatMap((logic, l) =>
    design.ledgers.map((ledger, g) => [
      plain(logic.name),
      plain(ledger.name),
      ...design.rooms.map((_, r) => String(rooms[l]![g]![r]!)),
    ]),
  );
  const left = ['left', 'left', 'right', 'right'] as const;
  return [
    folded(
      `${plural(log.rows, 'row')} over ${decimal(log.span_h, 2)} hours. Without --truth nobody knows what is right: this is what was counted.`,
    ),
    columns([['door', 'logic', 'forward', 'backward'], ...rows], left),
    ...(design.rooms.length > 0
      ? [
          `At the end of the log:\n${columns(
            [['logic', 'ledger', ...design.rooms.map(({ name }) => plain(name))], ...last],
            ['left', 'left', ...design.rooms.map(() => 'right' as const)],
          )}`,
        ]
      : []),
  ].join('\n');
}

/** What was repaired, and what is not known. */
export function repairsText(log: ReplayedLog): string {
  return repairSentences(log)
    .map((one) => folded(one))
    .join('');
}
