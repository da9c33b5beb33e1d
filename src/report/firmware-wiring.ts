/** How sensors of each kind are wired to a controller, in general words. Common practice, no source. */
import type { MountedRanger } from '../sensors/mounted.js';
import { speedOfSound } from '../sensors/ultrasonic/air.js';
import type { FirmwarePlan } from '../simulate/firmware/plan.js';
import { decimal } from './words.js';

export function wiring({ barriers, rangers }: FirmwarePlan): string {
  const lines = [
    'Sensors and controller share ground. A sensor that runs at a higher voltage than the controller needs its outputs brought down to it: by a divider or a level shifter.',
    ...(barriers === 0 ? [] : [BARRIER]),
    ...(rangers.length === 0
      ? []
      : [
          'A ranger gives a distance in its own way. Your function makes **whole micrometres** of it; no answer is `DOOR_NO_ECHO`.',
        ]),
    ...new Set(rangers.map(rangerWords)),
    'How it is wired in detail is in the papers of your sensors and controller; they go before this page.',
  ];
  return lines.map((line) => `- ${line}`).join('\n');
}

const BARRIER =
  'A light barrier takes one digital input. An output that only pulls down (open collector) needs a pull-up resistor at the input. Some outputs are low while the beam is broken, some while it is clear: try with your hand, and turn the bit round in your own function.';

function rangerWords({ sensor }: MountedRanger): string {
  switch (sensor.kind) {
    case 'ultrasonic-ranger': {
      // There and back, to a tenth of a micrometre.
      const tenths = Math.round((speedOfSound(sensor.assumed_temperature_c) / 2) * 10);
      return `An ultrasonic ranger takes two digital pins: one starts the burst, one tells the time of the echo. Micrometres are the echo’s microseconds, there and back, times ${decimal(tenths / 10, 1)}, as the scenario takes ${decimal(sensor.assumed_temperature_c)} °C for granted: \`(int32_t)echo_us * ${tenths} / 10\`.`;
    }
    case 'triangulation-ranger':
      return 'A triangulation ranger takes one analogue input. Its voltage falls as the distance grows, along a curve: measure yours (`jambeam fit` says how) and put it into a table of counts and micrometres.';
    case 'time-of-flight-ranger':
      return 'A time-of-flight ranger is on a bus of two lines; several on one bus have a line each that wakes them, and get addresses of their own one after another. Micrometres are its millimetres times 1000.';
  }
}
