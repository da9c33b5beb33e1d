/** A folder with a small study of rods, and what its results are. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { rodsText } from '../../study/studies.js';
import { folder } from '../jambeam.js';

export const RESULTS = [
  'results.csv',
  'results.parquet',
  'results-doors.csv',
  'results-doors.parquet',
  'study.json',
] as const;

export interface StudyText {
  readonly spacings?: readonly number[];
  readonly replicates?: string;
  readonly hours?: number;
  readonly rest?: string;
}

export function studyText({ spacings = [0.05, 0.1, 0.15], replicates = '6', rest = '' }: StudyText = {}): string {
  return `format: 1
name: rods
scenario: rods.yaml
factors:
  - { key: doors.*.pair.spacing_m, values: [${spacings.join(', ')}] }
replicates: ${replicates}
${rest}`;
}

/** @param hours of each replicate: some 60 ms to simulate by default */
export function folderWithStudy(text: StudyText = {}): string {
  const path = folder();
  writeFileSync(join(path, 'rods.yaml'), rodsText('a study', text.hours ?? 3));
  writeFileSync(join(path, 'study.yaml'), studyText(text));
  return path;
}

export function resultsOf(path: string): Record<string, string> {
  return Object.fromEntries(RESULTS.map((file) => [file, readFileSync(join(path, file)).toString('base64')]));
}

/** Whole lines of a journal; 0 where there is none. */
export function cellsIn(path: string): number {
  try {
    return readFileSync(join(path, 'journal.jsonl'), 'utf8').split('\n').length - 1;
  } catch {
    return 0;
  }
}
