/** What a user writes about an infrared triangulation ranger. */
import { z } from 'zod';
import { quantity, wholeNumber } from '../../engine/quantity.js';
import { rangerCommon } from '../ranger-schema.js';

/** volts = base + gain / (distance + offset) */
const curve = {
  gain_v_m: quantity(0.001, 10, 'V·m', 'Gain of the curve: volts are base + gain / (distance + offset).'),
  offset_m: quantity(-0.05, 1, 'm', 'Offset of the curve, added to the distance.'),
  base_v: quantity(-2, 5, 'V', 'Volts very far away.'),
};

export const triangulationSchema = z.strictObject({
  kind: z
    .literal('triangulation-ranger')
    .meta({ description: 'An infrared triangulation ranger: the angle of a light spot, given out as a voltage.' }),
  gain_v_m: curve.gain_v_m.default(0.24),
  offset_m: curve.offset_m.default(0.01),
  base_v: curve.base_v.default(0),
  fold_m: quantity(
    0.005,
    1,
    'm',
    'Nearer than this the spot leaves the detector and the voltage falls again: something closer reads as further away.',
  ).default(0.1),
  range_m: quantity(0.1, 10, 'm', 'Beyond this the spot fades into noise.').default(0.8),
  measure_ms: quantity(
    0.1,
    1000,
    'ms',
    'Time of one measurement; it runs freely and holds its output in between.',
  ).default(40),
  spot_diameter_m: quantity(0.0005, 0.3, 'm', 'Diameter of the light spot at the sensor.').default(0.008),
  spot_growth_m_per_m: quantity(0, 0.5, 'm/m', 'How much the spot grows per metre of distance.').default(0.02),
  noise_v: quantity(0, 1, 'V', 'Standard deviation of the voltage in the dark.').default(0.005),
  sunlight_noise_v_per_klx: quantity(0, 1, 'V/klx', 'Noise that daylight adds.').default(0.001),
  sunlight_shift_v_per_klx: quantity(-0.1, 0.1, 'V/klx', 'Shift of the voltage that daylight adds.').default(0.0005),
  adc_bits: wholeNumber(6, 24, 'bits', "Bits of the controller's analogue-to-digital converter.").default(10),
  adc_reference_v: quantity(0.5, 12, 'V', 'Reference of the converter: the voltage of a full count.').default(5),
  conversion_ms: quantity(0.001, 100, 'ms', 'Time of one analogue-to-digital conversion.').default(0.11),
  linearised_by: z
    .enum(['same-curve', 'table', 'fitted'])
    .meta({
      description: "How counts become distance: the sensor's own curve, a table, or a curve fitted at the bench.",
    })
    .default('same-curve'),
  table: z
    .array(
      z.strictObject({
        volts: quantity(0, 12, 'V', 'Voltage of the row.'),
        distance_m: quantity(0, 20, 'm', 'Distance it stands for.'),
      }),
    )
    .min(2)
    .max(200)
    .optional()
    .meta({ description: 'Rows of voltage and distance, straight lines in between; for linearised_by: table.' }),
  fitted: z
    .strictObject(curve)
    .optional()
    .meta({ description: 'The curve fitted at the bench; for linearised_by: fitted.' }),
  ...rangerCommon,
});
export type TriangulationRanger = z.infer<typeof triangulationSchema>;
