/**
 * The event queue with equal times taken in another order than they were put, for as long as a piece of work lasts. What
 * was put without anything taken in between keeps its order: members of a party come home in the party's order, and that is meant.
 */
import { vi } from 'vitest';
import { Agenda } from '../../src/engine/agenda.js';
import { Stream } from '../../src/engine/stream.js';

interface Waiting {
  readonly time: number;
  readonly key: number;
  readonly item: unknown;
}
export type Ties = 'as put' | 'last first' | 'shuffled';

/** What came of `work`, and how many events came while another of the same time was waiting. */
export function withTies<T>(ties: Ties, work: () => T): { readonly result: T; readonly tied: number } {
  const lists = new WeakMap<object, Waiting[]>();
  const listOf = (agenda: object): Waiting[] => {
    const list = lists.get(agenda) ?? [];
    lists.set(agenda, list);
    return list;
  };
  const chance = Stream.root('ties');
  let takes = 0;
  let tied = 0;
  const keyOf = (n: number): number => (ties === 'as put' ? n : ties === 'last first' ? -n : chance.at(n));
  const spies = [
    vi.spyOn(Agenda.prototype, 'size', 'get').mockImplementation(function (this: object) {
      return listOf(this).length;
    }),
    vi.spyOn(Agenda.prototype, 'peekTime').mockImplementation(function (this: object) {
      return listOf(this)[0]?.time ?? Infinity;
    }),
    vi.spyOn(Agenda.prototype, 'put').mockImplementation(function (this: object, time: number, item: unknown) {
      const list = listOf(this);
      const key = keyOf(takes);
      let at = list.length;
      while (at > 0 && (list[at - 1]!.time > time || (list[at - 1]!.time === time && list[at - 1]!.key > key))) at--;
      if (list[at - 1]?.time === time || list[at]?.time === time) tied++;
      list.splice(at, 0, { time, key, item });
    }),
    vi.spyOn(Agenda.prototype, 'take').mockImplementation(function (this: object) {
      takes++;
      return listOf(this).shift()?.item;
    }),
  ];
  try {
    return { result: work(), tied };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
