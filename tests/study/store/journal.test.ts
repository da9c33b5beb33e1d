/** Whatever happens to a journal, what was synced is there, and nothing else is. */
import { appendFileSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { Entry } from '../../../src/study/store/entry.js';
import { Journal, lineOf } from '../../../src/study/store/journal.js';

const folder = mkdtempSync(join(tmpdir(), 'jambeam-journal-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = join(folder, 'journal.jsonl');

const entry = (r: number): Entry => ({ d: 'design', r, v: [r, null, 0.1], who: { André: [r, 0] } });
const written = (count: number): string =>
  Array.from({ length: count }, (_, i) => lineOf(JSON.stringify(entry(i + 1)))).join('');

function opened(): { journal: Journal; entries: Entry[]; back: Entry[] } {
  const entries: Entry[] = [];
  const spans: Parameters<Journal['read']>[0][] = [];
  const journal = Journal.open(file, (one, span) => {
    entries.push(one);
    spans.push(span);
    return true;
  });
  return { journal, entries, back: spans.map((span) => journal.read(span)) };
}

test('what was put and synced comes back, also by its place', () => {
  rmSync(file, { force: true });
  const first = opened();
  const spans = [1, 2, 3].map((r) => first.journal.put(entry(r)));
  first.journal.sync();
  expect(spans.map((span) => first.journal.read(span))).toEqual([1, 2, 3].map(entry));
  first.journal.close();
  const { journal, entries, back } = opened();
  expect(entries).toEqual([1, 2, 3].map(entry));
  expect(back).toEqual(entries);
  journal.close();
});

test('torn off anywhere: the whole lines before are kept, and writing goes on from there', () => {
  const text = Buffer.from(written(2));
  for (let size = 0; size <= text.length; size += size < 12 || size > 60 ? 1 : 5) {
    writeFileSync(file, text.subarray(0, size));
    const whole = text.subarray(0, size).toString('latin1').split('\n').length - 1;
    const { journal, entries } = opened();
    expect(entries).toEqual(Array.from({ length: whole }, (_, i) => entry(i + 1)));
    expect(journal.damaged).toBe(text.subarray(0, size).at(-1) === 10 || size === 0 ? 0 : 1);
    journal.put(entry(9));
    journal.sync();
    journal.close();
    expect(readFileSync(file, 'utf8')).toBe(written(whole) + lineOf(JSON.stringify(entry(9))));
  }
});

test('a block that a power cut left as zeros, or a flipped bit, costs its lines alone', () => {
  const text = Buffer.from(written(5));
  const line = text.indexOf(10) + 1;
  for (const at of [line + 3, line + 12, line + 30]) {
    const spoilt = Buffer.from(text);
    spoilt[at]! ^= 4;
    writeFileSync(file, spoilt);
    const { journal, entries } = opened();
    expect(entries).toEqual([1, 3, 4, 5].map(entry));
    expect(journal.damaged).toBe(1);
    journal.close();
  }
  writeFileSync(file, text);
  appendFileSync(file, Buffer.alloc(4096));
  const { journal, entries } = opened();
  expect(entries).toHaveLength(5);
  journal.close();
  expect(readFileSync(file)).toEqual(text);
});

test('to look at a journal changes nothing, whatever its end', () => {
  writeFileSync(file, written(2));
  truncateSync(file, Buffer.byteLength(written(2)) - 3);
  const before = readFileSync(file);
  const entries: Entry[] = [];
  Journal.look(file, (one) => entries.push(one) > 0)!.close();
  expect(entries).toEqual([entry(1)]);
  expect(readFileSync(file)).toEqual(before);
  expect(Journal.look(join(folder, 'none'), () => true)).toBe(null);
});
