/** A table of results as CSV and as Parquet, written row by row in bounded memory. */
import { closeSync, fsyncSync, openSync } from 'node:fs';
import { join } from 'node:path';
import { ParquetWriter, fileWriter, schemaFromColumnData } from 'hyparquet-writer';
import type { Column, Value } from '../../study/columns.js';
import { CsvFile, cell } from '../csv-file.js';

/** Rows of a Parquet file that are kept together; also what is held in memory. */
const ROW_GROUP = 20_000;

const TYPES = { whole: 'INT32', number: 'DOUBLE', text: 'STRING' } as const;

export class ResultsFiles {
  private readonly csv: CsvFile;
  private readonly parquet: ParquetWriter;
  private readonly parquetFile: string;
  private data: Value[][];
  private readonly cells = new Map<string, Buffer>();

  /** @param name of the files, without ending; they must not exist */
  constructor(
    folder: string,
    name: string,
    private readonly columns: readonly Column[],
  ) {
    this.csv = new CsvFile(
      join(folder, `${name}.csv`),
      columns.map((column) => column.name),
    );
    this.parquetFile = join(folder, `${name}.parquet`);
    this.data = columns.map(() => []);
    this.parquet = new ParquetWriter({
      writer: fileWriter(this.parquetFile),
      schema: schemaFromColumnData({ columnData: this.columnData() }),
      kvMetadata: [{ key: 'columns', value: JSON.stringify(columns) }],
      createdBy: 'jambeam',
    });
  }

  put(row: readonly Value[]): void {
    for (const [i, value] of row.entries()) {
      this.data[i]!.push(value);
      if (value === null) this.csv.empty();
      else if (typeof value === 'string') this.csv.text(this.cellOf(value));
      else if (Number.isSafeInteger(value)) this.csv.whole(value);
      else this.csv.text(Buffer.from(String(value)));
    }
    this.csv.endRow();
    if (this.data[0]!.length >= ROW_GROUP) this.writeGroup();
  }

  close(): void {
    if (this.data[0]!.length > 0) this.writeGroup();
    void this.parquet.finish();
    this.csv.close();
    const fd = openSync(this.parquetFile, 'r');
    fsyncSync(fd);
    closeSync(fd);
  }

  private writeGroup(): void {
    void this.parquet.write({ columnData: this.columnData(), rowGroupSize: ROW_GROUP });
    this.data = this.columns.map(() => []);
  }

  private columnData() {
    return this.columns.map(({ name, type }, i) => ({
      name,
      type: TYPES[type],
      nullable: type === 'number',
      data: this.data[i]!,
    }));
  }

  private cellOf(text: string): Buffer {
    const known = this.cells.get(text) ?? cell(text);
    this.cells.set(text, known);
    return known;
  }
}
