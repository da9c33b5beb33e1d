/** passages.csv, tallies.csv and edges.csv, written while the simulation runs. Times are whole microseconds. */
import { join } from 'node:path';
import type { Design } from '../scenario/schema.js';
import type { Sinks } from '../simulate/outcome.js';
import { CsvFile, cell } from './csv-file.js';

const PASSAGE_COLUMNS =
  'replicate,number,door,body,who,stature_m,persons,kind,direction,enter_us,cross_us,leave_us'.split(',');
const TALLY_COLUMNS = 'replicate,door,logic,time_us,direction'.split(',');
const EDGE_COLUMNS = 'replicate,door,beam,time_us,level'.split(',');

export interface EventFiles {
  readonly sinks: Sinks;
  close(): void;
}

/** Opens the files in `folder`; rows go there through the sinks. */
export function openEventFiles(folder: string, design: Design, withEdges: boolean): EventFiles {
  const passages = new CsvFile(join(folder, 'passages.csv'), PASSAGE_COLUMNS);
  const tallies = new CsvFile(join(folder, 'tallies.csv'), TALLY_COLUMNS);
  const edges = withEdges ? new CsvFile(join(folder, 'edges.csv'), EDGE_COLUMNS) : undefined;
  const doors = design.doors.map((door) => cell(door.name));
  const logics = design.logics.map((logic) => cell(logic.name));
  const beams = design.doors.map((door) => door.beams.map((beam) => cell(beam.name)));
  const walkers = new Map<string, string>();
  const walker = (who: string): string => {
    const known = walkers.get(who);
    if (known !== undefined) return known;
    walkers.set(who, cell(who));
    return walker(who);
  };
  return {
    sinks: {
      passage: (replicate, v) =>
        passages.row(
          `${replicate},${v.number},${doors[v.door]},${v.body},${walker(v.who)},${tenthMillimetre(v.stature_m)},${v.persons},${v.kind},${v.direction},${v.enter_us},${v.cross_us ?? ''},${v.leave_us}`,
        ),
      tally: (replicate, t) =>
        tallies.row(`${replicate},${doors[t.door]},${logics[t.logic]},${t.time_us},${t.direction}`),
      ...(edges && {
        edge: (replicate, e) =>
          edges.row(`${replicate},${doors[e.door]},${beams[e.door]?.[e.beam]},${e.time_us},${e.level}`),
      }),
    },
    close() {
      passages.close();
      tallies.close();
      edges?.close();
    },
  };
}

/** Nobody is taller by less. */
function tenthMillimetre(length_m: number): number {
  return Math.round(length_m * 10_000) / 10_000;
}
