/** Files made worse where they are still files: their maps and lists are taken apart and put together wrongly. */
import { parse, stringify } from 'yaml';
import type { Step } from './mutate.js';
import { NASTY } from './nasty.js';

export type TreeForm = 'yaml' | 'json';
type Tree = unknown;
/** A child of a map or list, to be changed in place. */
interface Slot {
  readonly of: Record<string, Tree>;
  readonly key: string;
}

/** Stands for a piece until the text is made: a piece is no value but text, whatever it means there. */
const placeholder = (piece: number): string => `@@piece-${piece % NASTY.length}@@`;

export function mutatedTree(file: Buffer, form: TreeForm, steps: readonly Step[]): Buffer {
  const text = file.toString('utf8');
  const root: Record<string, Tree> = { tree: form === 'json' ? JSON.parse(text) : parse(text) };
  for (const [what, at, length, piece] of steps) {
    const slots = slotsOf(root);
    if (slots.length === 0) break;
    const [slot, other] = [slots[at % slots.length]!, slots[length % slots.length]!];
    CHANGES[what % CHANGES.length]!(slot, other, piece);
  }
  const plain =
    form === 'json' ? JSON.stringify(root['tree']) : stringify(root['tree'], { aliasDuplicateObjects: false });
  return withPieces(plain ?? '');
}

const VALUES: readonly Tree[] = [
  0,
  -1,
  1,
  1e-9,
  1e15,
  1e300,
  0.5,
  365,
  8760,
  '',
  'x',
  true,
  false,
  null,
  [],
  {},
  [null],
  [[]],
];

const CHANGES: readonly ((slot: Slot, other: Slot, piece: number) => void)[] = [
  ({ of, key }, _, piece) => (of[key] = placeholder(piece)),
  ({ of, key }, _, piece) => (of[key] = copy(VALUES[piece % VALUES.length])),
  ({ of, key }, _, piece) => (of[key] = copy(VALUES[piece % VALUES.length])),
  ({ of, key }) => {
    if (Array.isArray(of)) of.splice(Number(key), 1);
    else delete of[key];
  },
  ({ of, key }, other) => (of[key] = copy(other.of[other.key])),
  ({ of, key }, other) => {
    const mine = copy(of[key]);
    of[key] = copy(other.of[other.key]);
    other.of[other.key] = mine;
  },
  ({ of, key }, _, piece) => {
    for (let depth = 0; depth <= piece % 60; depth++) of[key] = piece % 2 === 0 ? [of[key]] : { [key]: of[key] };
  },
  ({ of, key }, _, piece) => {
    if (Array.isArray(of))
      of.splice(Number(key), 0, ...Array.from({ length: 1 + (piece % 50) }, () => copy(of[key as never])));
    else of[placeholder(piece)] = of[key];
  },
  ({ of, key }, _, piece) => {
    const value = of[key];
    if (typeof value === 'number') of[key] = value * [-1, 1000, 1e-3, 1e12][piece % 4]!;
    else if (typeof value === 'string') of[key] = `${value}${placeholder(piece)}`;
    else of[key] = JSON.stringify(value).slice(0, 50);
  },
];

/** Copies share nothing, so that no tree ever stands in itself; what would grow without end stays out. */
function copy(value: Tree): Tree {
  const text = JSON.stringify(value);
  return text === undefined || text.length > 50_000 ? null : JSON.parse(text);
}

function slotsOf(root: Record<string, Tree>): Slot[] {
  const slots: Slot[] = [];
  const visit = (of: Record<string, Tree>): void => {
    for (const key of Object.keys(of)) {
      slots.push({ of, key });
      const value = of[key];
      if (typeof value === 'object' && value !== null) visit(value as Record<string, Tree>);
    }
  };
  visit(root);
  return slots;
}

/** A piece that is a whole value takes its quotes away: then it is a number, a list, an alias. */
function withPieces(text: string): Buffer {
  const parts = text.split(/("?)@@piece-(\d+)@@("?)/);
  const buffers: Buffer[] = [];
  for (let i = 0; i < parts.length; i += 4) {
    buffers.push(Buffer.from(parts[i]!, 'utf8'));
    const [open, piece, close] = parts.slice(i + 1, i + 4);
    if (piece === undefined) continue;
    const whole = open === '"' && close === '"';
    buffers.push(Buffer.from(whole ? '' : open!), NASTY[Number(piece)]!, Buffer.from(whole ? '' : close!));
  }
  return Buffer.concat(buffers);
}
