/** Sensors and their places in words: what a reader sees instead of the scenario's keys. */
import type { Mount } from '../geometry/schema.js';
import type { Design, DesignBeam } from '../scenario/schema.js';
import type { SensorKind } from '../sensors/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { decimal, joined, metres, named } from './words.js';

const KIND: Readonly<Record<SensorKind, string>> = {
  'light-barrier': 'light barrier',
  'ultrasonic-ranger': 'ultrasonic ranger',
  'triangulation-ranger': 'infrared triangulation ranger',
  'time-of-flight-ranger': 'optical time-of-flight ranger',
};

/** 'ultrasonic ranger'. */
export const kindWords = (kind: SensorKind): string => KIND[kind];

/** Kinds a design uses, each once, in the order of its doors and beams. */
export function kindsUsed(design: Design): SensorKind[] {
  return [...new Set(design.doors.flatMap((d) => d.beams.map((b) => sensorNamed(design, b.sensor).kind)))];
}

/** 'light barriers and ultrasonic rangers'. */
export const sensorsUsed = (design: Design): string => joined(kindsUsed(design).map((kind) => `${kindWords(kind)}s`));

const MOUNT: Readonly<Record<Mount, string>> = {
  'left-jamb': 'left jamb',
  'right-jamb': 'right jamb',
  lintel: 'lintel',
};
const mountWords = (mount: Mount): string => MOUNT[mount];

const degrees = (x: number): string => `${decimal(Math.abs(x), 1)}°`;

/** 'tilted 10° down, turned 5.7° forward'; 'straight across' or, under the lintel, 'straight down'. */
function aimWords({ mount, tilt_deg = 0, turn_deg = 0 }: DesignBeam): string {
  const under = mount === 'lintel';
  const tilt = under ? `toward the ${tilt_deg > 0 ? 'right' : 'left'} jamb` : tilt_deg > 0 ? 'up' : 'down';
  const parts = [
    ...(tilt_deg === 0 ? [] : [`tilted ${degrees(tilt_deg)} ${tilt}`]),
    ...(turn_deg === 0 ? [] : [`turned ${degrees(turn_deg)} ${turn_deg > 0 ? 'forward' : 'backward'}`]),
  ];
  return parts.length > 0 ? parts.join(', ') : under ? 'straight down' : 'straight across';
}

/** 'in the left jamb, tilted 10° down'; of a barrier 'left to right jamb'. */
export function placeWords(beam: DesignBeam, kind: SensorKind): string {
  if (kind === 'light-barrier') return beam.mount === 'right-jamb' ? 'right to left jamb' : 'left to right jamb';
  if (beam.mount !== 'lintel') return `in the ${mountWords(beam.mount)}, ${aimWords(beam)}`;
  const across = beam.across_m === undefined ? 'in the middle' : `${metres(beam.across_m)} from the left jamb`;
  return `under the lintel, ${across}, ${aimWords(beam)}`;
}

/** 'Ranger A sits in the left jamb, 0.95 m above the floor, tilted 10° down.' */
export function beamSentence(beam: DesignBeam, kind: SensorKind): string {
  const name = named(beam.name);
  const height = `${metres(beam.height_m)} above the floor`;
  if (kind === 'light-barrier') {
    const far = beam.far_height_m ?? beam.height_m;
    const [from, to] = beam.mount === 'right-jamb' ? ['right', 'left'] : ['left', 'right'];
    return `Light barrier ${name} runs from the ${from} jamb, ${height}, to the ${to} jamb${far === beam.height_m ? '' : `, ${metres(far)} above it`}.`;
  }
  const aim = aimWords(beam);
  if (beam.mount !== 'lintel') return `Ranger ${name} sits in the ${mountWords(beam.mount)}, ${height}, ${aim}.`;
  const across = beam.across_m === undefined ? 'in the middle' : `${metres(beam.across_m)} from the left jamb`;
  return `Ranger ${name} hangs under the lintel, ${across}, ${height}, ${aim}.`;
}
