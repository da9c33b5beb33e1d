/** A copy of something that runs goes its own way from there. */
import { expect, test } from 'vitest';
import { forkOf } from '../../src/engine/fork.js';

class Cart {
  readonly load: string[] = [];
  readonly seen = new Map<string, Cart>();
  readonly doors = new Set<Cart>();
  readonly turns = Int32Array.of(1, 2);
  self: Cart = this;
  constructor(
    readonly plan: { readonly name: string },
    readonly tell: (text: string) => void = () => {},
  ) {}
  put(what: string): number {
    return this.load.push(what);
  }
}
class Wheel {
  angle = 0;
}

function carts(): { first: Cart; second: Cart } {
  const first = new Cart({ name: 'first' });
  const second = new Cart({ name: 'second' });
  first.seen.set('second', second);
  first.doors.add(second);
  second.seen.set('first', first);
  return { first, second };
}

test('what the copy does leaves the original as it was, and the other way round', () => {
  const { first } = carts();
  const copy = forkOf(first, [Cart]);
  copy.put('sack');
  copy.turns[0] = 9;
  copy.seen.get('second')!.put('box');
  copy.seen.clear();
  copy.doors.clear();
  expect([first.load, first.turns[0], first.seen.size, first.doors.size]).toEqual([[], 1, 1, 1]);
  expect(first.seen.get('second')!.load).toEqual([]);
  first.put('barrel');
  expect(copy.load).toEqual(['sack']);
});

test('it is of the same class, with the same state', () => {
  const { first } = carts();
  first.put('sack');
  const copy = forkOf(first, [Cart]);
  expect(copy).toBeInstanceOf(Cart);
  expect(copy).not.toBe(first);
  expect([...copy.turns]).toEqual([1, 2]);
  expect(copy.load).toEqual(['sack']);
});

test('what is met twice is copied once, round about too', () => {
  const { first } = carts();
  const copy = forkOf(first, [Cart]);
  const second = copy.seen.get('second')!;
  expect(copy.self).toBe(copy);
  expect([...copy.doors]).toEqual([second]);
  expect(second.seen.get('first')).toBe(copy);
});

test('what isn’t named is shared: plans, functions, other classes', () => {
  const wheel = new Wheel();
  const cart = Object.assign(new Cart({ name: 'shared' }), { wheel });
  const copy = forkOf(cart, [Cart]);
  expect(copy.plan).toBe(cart.plan);
  expect(copy.tell).toBe(cart.tell);
  expect(copy.wheel).toBe(wheel);
  expect(forkOf(cart, [Cart, Wheel]).wheel).not.toBe(wheel);
});

test('a class that stands on a named one is copied as what it is', () => {
  class Barrow extends Cart {}
  const copy = forkOf(new Barrow({ name: 'barrow' }), [Cart]);
  expect(copy).toBeInstanceOf(Barrow);
});

test('lists of lists, and nothing', () => {
  const nested = [[1, [2]], null, undefined, 'text'] as const;
  const copy = forkOf(nested, []);
  expect(copy).toEqual(nested);
  expect(copy[0]).not.toBe(nested[0]);
  expect(forkOf(null, [])).toBeNull();
});
