/** What a controller reads: turns of its own rangers, pins that serve one sensor each, and enough of them. */
import { nearest } from '../../engine/nearest.js';
import { pinsOf } from '../../sensors/controllers/pins.js';
import type { SensorKind } from '../../sensors/schema.js';
import type { Finding, KeyPath } from '../issue.js';
import { type Outline, beamsOf, finding, kindOf } from './outline.js';

type OutlineController = NonNullable<NonNullable<Outline['controllers']>[number]>;

/** A beam as turns call it. */
interface Wired {
  /** DOOR.BEAM */
  readonly name: string;
  readonly controller: string | undefined;
  readonly kind: SensorKind | undefined;
  readonly pins: readonly (number | undefined)[] | undefined;
  readonly path: KeyPath;
}

export function checkControllers(outline: Outline): Finding[] {
  const beams = wiredBeams(outline);
  return (outline.controllers ?? []).flatMap((controller, i) => {
    if (!controller) return [];
    const path = ['controllers', i];
    const both = 'cycle_ms' in controller && 'wait_ms' in controller;
    const own = beams?.filter((beam) => beam.controller === controller.name);
    return [
      ...(both ? [finding([...path, 'wait_ms'], { code: 'cycle_or_wait' }, 'key')] : []),
      ...(beams ? checkTurns(controller, beams, path) : []),
      ...(own
        ? [...own.flatMap(checkPinCount), ...pinsTwice(controller, own), ...checkCounts(controller, own, path)]
        : []),
    ];
  });
}

/** All beams of the house; null when some can't be read. */
function wiredBeams(outline: Outline): readonly Wired[] | null {
  const first = outline.controllers?.[0]?.name;
  const wired: Wired[] = [];
  for (const [d, door] of (outline.doors ?? [undefined]).entries()) {
    const path = ['doors', d];
    const beams = door && beamsOf(door, path);
    if (!door || !beams) return null;
    const controller = 'controller' in door ? door.controller : first;
    for (const [b, beam] of beams.entries()) {
      if (door.name === undefined || beam.name === undefined) return null;
      wired.push({
        name: `${door.name}.${beam.name}`,
        controller,
        kind: kindOf(outline, beam.sensor),
        pins: door.beams?.[b]?.pins,
        path: [...path, 'beams', b, 'pins'],
      });
    }
  }
  return wired;
}

function checkTurns(controller: OutlineController, beams: readonly Wired[], path: KeyPath): Finding[] {
  const byName = new Map(beams.map((beam) => [beam.name, beam]));
  const known = [...byName.keys()];
  return (controller.turns ?? []).flatMap((turn, t) => {
    const seen = new Set<string>();
    return (turn ?? []).flatMap((name, k) => {
      if (name === undefined) return [];
      const at = [...path, 'turns', t, k];
      const beam = byName.get(name);
      if (!beam)
        return [finding(at, { code: 'unknown_name', what: 'beam', name, known, nearest: nearest(name, known) })];
      if (seen.has(name)) return [finding(at, { code: 'twice_in_turn', beam: name })];
      seen.add(name);
      const [own, other] = [controller.name, beam.controller];
      if (own !== undefined && other !== undefined && own !== other)
        return [finding(at, { code: 'not_its_beam', beam: name, controller: own, other })];
      return beam.kind === 'light-barrier' ? [finding(at, { code: 'turn_barrier', beam: name })] : [];
    });
  });
}

function checkPinCount({ kind, pins, path }: Wired): Finding[] {
  if (kind === undefined || pins === undefined) return [];
  const { digital, analogue } = pinsOf([kind, kind]);
  const alone = pinsOf([kind]);
  // What a second one takes is what each takes for itself; the lines of a bus are shared.
  const needs = digital - alone.digital + analogue - alone.analogue;
  return pins.length === needs ? [] : [finding(path, { code: 'pin_count', kind, needs, found: pins.length })];
}

function pinsTwice({ name: controller = '' }: OutlineController, beams: readonly Wired[]): Finding[] {
  const users = new Map<number, string>();
  return beams.flatMap(({ name, pins = [], path }) =>
    pins.flatMap((pin, i) => {
      if (pin === undefined) return [];
      const other = users.get(pin);
      if (other !== undefined) return [finding([...path, i], { code: 'pin_twice', pin, controller, other })];
      users.set(pin, name);
      return [];
    }),
  );
}

function checkCounts(controller: OutlineController, beams: readonly Wired[], path: KeyPath): Finding[] {
  const kinds = beams.flatMap(({ kind }) => kind ?? []);
  const { name = '', digital_pins, analogue_inputs } = controller;
  const needs = pinsOf(kinds);
  const check = (
    key: string,
    what: 'digital pins' | 'analogue inputs',
    of: 'digital' | 'analogue',
    found: number | undefined,
  ) => {
    if (found === undefined || needs[of] <= found) return [];
    const by = [...new Set(kinds)].flatMap((kind) => {
      const same = kinds.filter((other) => other === kind);
      const takes = pinsOf(same)[of];
      return takes === 0 ? [] : [`${same.length} of ${kind} ${same.length === 1 ? 'takes' : 'take'} ${takes}`];
    });
    return [finding([...path, key], { code: 'too_few_pins', controller: name, what, needs: needs[of], found, by })];
  };
  return [
    ...check('digital_pins', 'digital pins', 'digital', digital_pins),
    ...check('analogue_inputs', 'analogue inputs', 'analogue', analogue_inputs),
  ];
}
