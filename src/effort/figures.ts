/** Built-in figures about installing: what a scenario may leave out. None of them was measured. */
import type { Figure } from '../engine/figure.js';

export const RUN_ABOVE_LINTEL: Figure<number> = {
  id: 'effort.run_above_lintel',
  value: 0.1,
  unit: 'm',
  used_in: 'height of cable runs: so far above the highest lintel of the storey, but below its ceiling',
  citation: 'no source: cables that run over the doors cross no opening, and nobody trips over them',
  status: 'assumption',
};

export const CONTROLLER_HEIGHT: Figure<number> = {
  id: 'effort.controller_height',
  value: 1.5,
  unit: 'm',
  used_in: 'height of a controller on its wall: how far cables come down to it',
  citation: 'no source: in reach of a standing adult',
  status: 'assumption',
};

export const FRAME_HOLES: Figure<{
  readonly through_beam: number;
  readonly reflector: number;
  readonly ultrasonic: number;
  readonly triangulation: number;
  readonly time_of_flight: number;
  readonly outlet: number;
}> = {
  id: 'effort.frame_holes',
  value: { through_beam: 2, reflector: 1, ultrasonic: 1, triangulation: 1, time_of_flight: 1, outlet: 1 },
  unit: 'holes',
  used_in: 'holes in a frame for each sensor by kind; outlet: where cables leave a jamb or lintel, one for all in it',
  citation: 'no source: one hole for each end that has a cable; a reflector is stuck on',
  status: 'assumption',
};

export const WORK_MINUTES: Figure<{
  readonly hole: number;
  readonly metre: number;
  readonly raceway_metre: number;
  readonly sensor: number;
  readonly controller: number;
}> = {
  id: 'effort.work_minutes',
  value: { hole: 15, metre: 5, raceway_metre: 8, sensor: 20, controller: 45 },
  unit: 'min',
  used_in: 'how long work takes, where the scenario’s `work` does not say',
  citation: 'no source',
  status: 'assumption',
};

export const POWER: Figure<{
  readonly through_beam: number;
  readonly reflector: number;
  readonly ultrasonic: number;
  readonly triangulation: number;
  readonly time_of_flight: number;
  readonly controller: number;
}> = {
  id: 'effort.power',
  value: { through_beam: 150, reflector: 100, ultrasonic: 75, triangulation: 165, time_of_flight: 70, controller: 500 },
  unit: 'mW',
  used_in: 'watt-hours a day of sensors and controllers that state no power_mw',
  citation: 'no source',
  status: 'assumption',
};

export const PRICES: Figure<{
  readonly through_beam: number;
  readonly reflex: number;
  readonly ultrasonic: number;
  readonly triangulation: number;
  readonly time_of_flight: number;
  readonly reflector: number;
  readonly controller: number;
  readonly power_supply: number;
  readonly cable_metre: number;
  readonly raceway_metre: number;
  readonly mounting: number;
  readonly adhesive_mounting: number;
}> = {
  id: 'effort.prices',
  value: {
    through_beam: 24,
    reflex: 18,
    ultrasonic: 9,
    triangulation: 14,
    time_of_flight: 16,
    reflector: 3,
    controller: 30,
    power_supply: 15,
    cable_metre: 0.8,
    raceway_metre: 2.5,
    mounting: 1.5,
    adhesive_mounting: 2,
  },
  unit: 'currency',
  used_in:
    'prices of parts that the scenario’s `prices` does not name; wherever they are shown they are called made up',
  citation: 'none: made up, of a likely order of magnitude',
  status: 'assumption',
};

export function effortFigures(): Figure[] {
  return [RUN_ABOVE_LINTEL, CONTROLLER_HEIGHT, FRAME_HOLES, WORK_MINUTES, POWER, PRICES];
}
