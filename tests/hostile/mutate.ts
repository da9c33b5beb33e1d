/**
 * Files made worse. A recipe is plain data, so that the same one gives the same bytes again and a shorter one can be looked
 * for when something was found; what its numbers mean depends on the file it is used on.
 */
import fc from 'fast-check';
import { NASTY } from './nasty.js';
import { type TreeForm, mutatedTree } from './trees.js';

const MODES = ['bytes', 'words', 'numbers', 'lines', 'tree', 'whole', 'random'] as const;
type Mode = (typeof MODES)[number];
/** What is done, where, over how much, and with which piece; each taken modulo what there is. */
export type Step = readonly [what: number, at: number, length: number, piece: number];
export interface Recipe {
  readonly mode: Mode;
  readonly seed: number;
  readonly steps: readonly Step[];
}

const any = fc.noBias(fc.nat(0x7fff_ffff));
export const recipes: fc.Arbitrary<Recipe> = fc.record({
  mode: fc.constantFrom(...MODES),
  seed: any,
  steps: fc.array(fc.tuple(any, any, any, any), { minLength: 1, maxLength: 5 }),
});

const MOST_BYTES = 400_000;
const picked = <T>(all: readonly T[], index: number): T => all[index % all.length]!;

/** The file that a recipe makes of valid ones. */
export function mutant(seeds: readonly Buffer[], { mode, seed, steps }: Recipe, form: TreeForm | null): Buffer {
  const file = picked(seeds, seed);
  if (mode === 'random') return randomBytes(steps);
  if (mode === 'tree' && form !== null) return mutatedTree(file, form, steps);
  const ways = { bytes: BYTES, words: WORDS, numbers: NUMBERS, lines: LINES, tree: WORDS, whole: WHOLE }[mode];
  return steps.reduce(
    (now, [what, at, length, piece]) => picked(ways, what)(now, at, length, piece, seeds).subarray(0, MOST_BYTES),
    file,
  );
}

type Way = (file: Buffer, at: number, length: number, piece: number, seeds: readonly Buffer[]) => Buffer;

function replaced(file: Buffer, from: number, to: number, ...by: readonly Buffer[]): Buffer {
  return Buffer.concat([file.subarray(0, from), ...by, file.subarray(to)]);
}

/** A range of bytes: mostly a short one. */
function range(file: Buffer, at: number, length: number): readonly [from: number, to: number] {
  const from = at % (file.length + 1);
  const most = length % 8 === 0 ? file.length : 40;
  return [from, Math.min(file.length, from + 1 + (length % most))];
}

const BYTES: readonly Way[] = [
  (file, at, length) => {
    if (file.length === 0) return file;
    const flipped = Buffer.from(file);
    flipped[at % file.length]! ^= 1 << (length % 8);
    return flipped;
  },
  (file, at, _, piece) => replaced(file, at % (file.length + 1), at % (file.length + 1), Buffer.of(piece % 256)),
  (file, at, length) => replaced(file, ...range(file, at, length)),
  (file, at) => file.subarray(0, at % (file.length + 1)),
  (file, at, length, piece) => {
    const [from, to] = range(file, at, length);
    const part = file.subarray(from, to);
    return replaced(file, to, to, ...Array<Buffer>(1 + (piece % 20)).fill(part));
  },
  (file, at, length, piece, seeds) => {
    const other = picked(seeds, piece);
    return Buffer.concat([file.subarray(0, at % (file.length + 1)), other.subarray(length % (other.length + 1))]);
  },
  (file, at, _, piece) => replaced(file, at % (file.length + 1), at % (file.length + 1), picked(NASTY, piece)),
];

/** Whole words and numbers, so that what stands around them stays readable. */
const WORDS: readonly Way[] = [
  (file, at, _, piece) => atWord(file, at, (from, to) => replaced(file, from, to, picked(NASTY, piece))),
  (file, at, _, piece) => atWord(file, at, (from, to) => replaced(file, from, to, picked(NASTY, piece))),
  (file, at) => atWord(file, at, (from, to) => replaced(file, from, to)),
  (file, at, length) =>
    atWord(file, at, (from, to) =>
      atWord(file, length, (other, end) => replaced(file, from, to, file.subarray(other, end))),
    ),
];

/** What stays valid more often than not: a number for a number. */
const NUMBERS: readonly Way[] = [
  (file, at, length, piece) => {
    const text = file.toString('latin1');
    const numbers = [...text.matchAll(/(?<![\w.#-])\d+(?:\.\d+)?(?![\w.])/g)];
    const one = numbers[at % Math.max(1, numbers.length)];
    if (one === undefined) return file;
    const by = length % 3 === 0 ? picked(EXTREMES, piece) : String(Number(one[0]) * picked(FACTORS, piece));
    return replaced(file, one.index, one.index + one[0].length, Buffer.from(by, 'latin1'));
  },
];
const FACTORS = [0.5, 0.9, 1.1, 2, 3, 10, 100, 1000] as const;
const EXTREMES = ['0', '-1', '1', '0.001', '40', '365', '1e9', '1e15', '8760', '1000000', '0.5', '1e-9'] as const;

function atWord(file: Buffer, at: number, use: (from: number, to: number) => Buffer): Buffer {
  const isWord = (byte: number | undefined) =>
    byte !== undefined && (byte > 0x7f || /[\w.+-]/.test(String.fromCharCode(byte)));
  let from = at % (file.length + 1);
  while (from < file.length && !isWord(file[from])) from++;
  while (from > 0 && isWord(file[from - 1])) from--;
  let to = from;
  while (isWord(file[to])) to++;
  return use(from, to);
}

const LINES: readonly Way[] = [
  (file, at) => withLines(file, (lines) => lines.toSpliced(at % lines.length, 1)),
  (file, at, length, piece) =>
    withLines(file, (lines) =>
      lines.toSpliced(length % lines.length, 0, ...Array<string>(1 + (piece % 30)).fill(picked(lines, at))),
    ),
  (file, at, length) =>
    withLines(file, (lines) =>
      lines.with(at % lines.length, picked(lines, length)).with(length % lines.length, picked(lines, at)),
    ),
  (file, at, length) =>
    withLines(file, (lines) => lines.with(at % lines.length, ' '.repeat(length % 9) + picked(lines, at).trimStart())),
  (file, at, _, piece, seeds) =>
    withLines(file, (lines) =>
      lines.toSpliced(at % lines.length, 0, picked(picked(seeds, piece).toString('latin1').split('\n'), piece)),
    ),
];

function withLines(file: Buffer, change: (lines: string[]) => string[]): Buffer {
  return Buffer.from(change(file.toString('latin1').split('\n')).join('\n'), 'latin1');
}

/** The same text as other programs save it. */
const WHOLE: readonly Way[] = [
  (file) => Buffer.concat([Buffer.of(0xef, 0xbb, 0xbf), file]),
  (file) => Buffer.from(`\ufeff${file.toString('utf8')}`, 'utf16le'),
  (file) => Buffer.from(file.toString('utf8'), 'utf16le'),
  (file) => Buffer.from(`\ufeff${file.toString('utf8')}`, 'utf16le').swap16(),
  (file) => Buffer.from(file.toString('latin1').replaceAll('\n', '\r\n'), 'latin1'),
  (file) => Buffer.from(file.toString('latin1').replaceAll('\n', '\r'), 'latin1'),
  (file) => Buffer.from(file.toString('latin1').replaceAll('\n', ' '), 'latin1'),
  (file) => Buffer.from(file.toString('latin1').replaceAll(' ', '\t'), 'latin1'),
  (file) => Buffer.from(file.toString('latin1').replaceAll(/\d/g, '٣'), 'utf8'),
  (file) => Buffer.concat([file, file]),
  (file, _, length) => Buffer.alloc(length % 3000, file.subarray(0, 1)),
  (file) => Buffer.from(file).reverse(),
];

/** Nothing valid to begin with: bytes that follow from the recipe's numbers, and nasty pieces among them. */
function randomBytes(steps: readonly Step[]): Buffer {
  return Buffer.concat(
    steps.flatMap(([what, at, length, piece]) => {
      if (what % 3 === 0) return [picked(NASTY, piece), picked(NASTY, at), picked(NASTY, length)];
      let state = at | 1;
      const one = (): number => {
        // Xorshift (Marsaglia, Journal of Statistical Software 8(14), 2003): any bytes will do.
        state ^= state << 13;
        state ^= state >>> 17;
        state ^= state << 5;
        return what % 3 === 1 ? state & 0xff : 0x20 + ((state >>> 8) % 0x5f);
      };
      return [Buffer.from(Array.from({ length: length % 400 }, one))];
    }),
  );
}
