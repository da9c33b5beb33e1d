/** Built-in figures about infrared triangulation rangers: what a scenario may leave out. */
import type { Figure } from '../../engine/figure.js';
import { triangulationSchema } from './schema.js';

const NO_DEVICE = 'no source: an invented curve of the usual shape, no device behind it';

export function triangulationFigures(): Figure[] {
  const defaults = triangulationSchema.parse({ kind: 'triangulation-ranger' });
  const figure = (
    id: string,
    value: number,
    unit: string,
    used_in: string,
    citation: string,
    status: Figure['status'] = 'assumption',
  ): Figure => ({ id: `sensor.triangulation.${id}`, value, unit, used_in, citation, status });
  return [
    figure(
      'gain',
      defaults.gain_v_m,
      'V·m',
      'curve from distance to volts: base + gain / (distance + offset)',
      NO_DEVICE,
    ),
    figure('offset', defaults.offset_m, 'm', 'offset of the curve', NO_DEVICE),
    figure('base', defaults.base_v, 'V', 'volts very far away', NO_DEVICE),
    figure(
      'fold',
      defaults.fold_m,
      'm',
      'nearer than this a body reads as further away; the volts are taken to fall in a straight line to the base',
      'range of usual infrared triangulation rangers 0.10 to 0.80 m, no source; the straight line is an assumption',
      'common practice',
    ),
    figure(
      'range',
      defaults.range_m,
      'm',
      'beyond this the output fades with the return, which falls with the square of the distance; noise doubles meanwhile',
      'range of usual infrared triangulation rangers 0.10 to 0.80 m, no source',
      'common practice',
    ),
    figure(
      'measure',
      defaults.measure_ms,
      'ms',
      'time of one free-running measurement',
      'about 25 a second, no source',
      'from memory',
    ),
    figure('spot', defaults.spot_diameter_m, 'm', 'diameter of the spot at the sensor', 'no source'),
    figure('spot_growth', defaults.spot_growth_m_per_m, 'm/m', 'how much the spot grows with distance', 'no source'),
    figure(
      'noise',
      defaults.noise_v,
      'V',
      'standard deviation of the voltage',
      'no source: about one step of a 10-bit converter at 5 V',
    ),
    figure('sunlight_noise', defaults.sunlight_noise_v_per_klx, 'V/klx', 'noise that daylight adds', 'no source'),
    figure('sunlight_shift', defaults.sunlight_shift_v_per_klx, 'V/klx', 'shift that daylight adds', 'no source'),
    figure('adc_bits', defaults.adc_bits, 'bits', 'resolution of the converter', 'no source', 'common practice'),
    figure('adc_reference', defaults.adc_reference_v, 'V', 'voltage of a full count', 'no source', 'common practice'),
    figure('conversion', defaults.conversion_ms, 'ms', 'time of one conversion', 'no source', 'from memory'),
  ];
}
