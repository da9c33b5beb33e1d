/** rooms.csv of a replayed log: every change of every count. */
import { join } from 'node:path';
import type { Design } from '../../scenario/schema.js';
import type { RoomCount } from '../../simulate/house-books.js';
import { CsvFile, cell } from '../csv-file.js';

export class RoomFile {
  private readonly file: CsvFile;
  private readonly names;
  private open = true;

  constructor(folder: string, { logics, ledgers, rooms }: Design) {
    this.file = new CsvFile(join(folder, 'rooms.csv'), ['logic', 'ledger', 'room', 'time_us', 'count']);
    const cells = (all: readonly { readonly name: string }[]) => all.map(({ name }) => cell(name));
    this.names = { logics: cells(logics), ledgers: cells(ledgers), rooms: cells(rooms) };
  }

  /** Nothing is written any more once it is closed. */
  count({ time_us, logic, ledger, room, count }: RoomCount): void {
    if (!this.open) return;
    const { logics, ledgers, rooms } = this.names;
    this.file.text(logics[logic]!).text(ledgers[ledger]!).text(rooms[room]!).whole(time_us).whole(count).endRow();
  }

  close(): void {
    this.open = false;
    this.file.close();
  }
}
