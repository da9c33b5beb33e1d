/** passages.csv, tallies.csv, edges.csv and readings.csv, written while the simulation runs. Times are whole microseconds. */
import { join } from 'node:path';
import type { Design } from '../scenario/schema.js';
import { NO_ECHO } from '../sensors/ranger.js';
import { hasRangers } from '../simulate/plan.js';
import type { Sinks, TallyRow } from '../simulate/outcome.js';
import { CsvFile, cell } from './csv-file.js';

const PASSAGE_COLUMNS =
  'replicate,number,door,body,who,stature_m,persons,kind,direction,enter_us,cross_us,leave_us,sort,entry'.split(',');
const TALLY_COLUMNS = 'replicate,door,logic,time_us,direction'.split(',');
const READING_COLUMNS = 'replicate,door,beam,time_us,distance_um'.split(',');
const EDGE_COLUMNS = 'replicate,door,beam,time_us,level'.split(',');
/** Statures go to the tenth of a millimetre: nobody is taller by less. */
const STATURE_PLACES = 4;

/** tallies.csv alone, of one replicate. */
export function openTallyFile(folder: string, design: Design, replicate: number) {
  const file = new CsvFile(join(folder, 'tallies.csv'), TALLY_COLUMNS);
  const row = tallyRow(file, design);
  return { tally: (tally: TallyRow) => row(replicate, tally), close: () => file.close() };
}

function tallyRow(file: CsvFile, design: Design): (replicate: number, tally: TallyRow) => void {
  const doors = design.doors.map((door) => cell(door.name));
  const logics = design.logics.map((logic) => cell(logic.name));
  const ways = { forward: cell('forward'), backward: cell('backward') };
  return (replicate, t) => {
    file.whole(replicate).text(doors[t.door]!).text(logics[t.logic]!).whole(t.time_us).text(ways[t.direction]).endRow();
  };
}

export interface EventFiles {
  readonly sinks: Sinks;
  close(): void;
}

/** Opens the files in `folder`; rows go there through the sinks. */
export function openEventFiles(folder: string, design: Design, withEdges: boolean): EventFiles {
  const passages = new CsvFile(join(folder, 'passages.csv'), PASSAGE_COLUMNS);
  const tallies = new CsvFile(join(folder, 'tallies.csv'), TALLY_COLUMNS);
  const edges = withEdges ? new CsvFile(join(folder, 'edges.csv'), EDGE_COLUMNS) : undefined;
  const readings =
    withEdges && hasRangers(design) ? new CsvFile(join(folder, 'readings.csv'), READING_COLUMNS) : undefined;
  const doors = design.doors.map((door) => cell(door.name));
  const beams = design.doors.map((door) => door.beams.map((beam) => cell(beam.name)));
  const words = new Words();
  return {
    sinks: {
      passage(replicate, v) {
        passages.whole(replicate).whole(v.number).text(doors[v.door]!).whole(v.body).text(words.cell(v.who));
        passages.decimal(tenthsDown(v.stature_m), STATURE_PLACES).whole(v.persons);
        passages.text(words.cell(v.kind)).text(words.cell(v.direction)).whole(v.enter_us);
        if (v.cross_us === null) passages.empty();
        else passages.whole(v.cross_us);
        passages.whole(v.leave_us).text(words.cell(v.sort));
        if (v.entry < 0) passages.empty();
        else passages.whole(v.entry + 1);
        passages.endRow();
      },
      tally: tallyRow(tallies, design),
      ...(edges && {
        edge(replicate, e) {
          edges.whole(replicate).text(doors[e.door]!).text(beams[e.door]![e.beam]!).whole(e.time_us);
          edges.whole(e.level).endRow();
        },
      }),
      ...(readings && {
        reading(replicate, r) {
          readings.whole(replicate).text(doors[r.door]!).text(beams[r.door]![r.beam]!).whole(r.time_us);
          if (r.distance_um === NO_ECHO) readings.empty();
          else readings.whole(r.distance_um);
          readings.endRow();
        },
      }),
    },
    close() {
      passages.close();
      tallies.close();
      edges?.close();
      readings?.close();
    },
  };
}

/** Rounded down, so that nobody comes into a taller band of statures by being written down. */
function tenthsDown(stature_m: number): number {
  return Math.floor(stature_m * 10_000 + 1e-5) / 10_000;
}

/** Cells of words that come again and again. */
class Words {
  private readonly known = new Map<string, Buffer>();

  cell(word: string): Buffer {
    let made = this.known.get(word);
    if (!made) {
      made = cell(word);
      this.known.set(word, made);
    }
    return made;
  }
}
