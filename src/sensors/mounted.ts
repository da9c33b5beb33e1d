/** Sensors in their place, in the door's axes. */
import type { BeamLine } from '../geometry/beam-line.js';
import type { Mount } from '../geometry/schema.js';
import type { LightBarrier, RangerSensor, Sensor } from './schema.js';

/** One beam of a door as mounted. */
export interface MountedBeam<S extends Sensor = Sensor> {
  readonly name: string;
  /** Index among the door's beams. */
  readonly index: number;
  readonly mount: Mount;
  /** From a barrier's emitter to its receiver; from a ranger along its axis to where that leaves the opening. */
  readonly line: BeamLine;
  readonly sensor: S;
}
export type MountedBarrier = MountedBeam<LightBarrier>;
export type MountedRanger = MountedBeam<RangerSensor>;

export function isBarrier(beam: MountedBeam): beam is MountedBarrier {
  return beam.sensor.kind === 'light-barrier';
}

export function isRanger(beam: MountedBeam): beam is MountedRanger {
  return beam.sensor.kind !== 'light-barrier';
}
