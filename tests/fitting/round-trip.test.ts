/** A simulated ranger put on the bench comes back as the sensor it is: the fit and the simulation mean the same by each key. */
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { Stream } from '../../src/engine/stream.js';
import { fitBench } from '../../src/fitting/fit.js';
import { profileOf } from '../../src/fitting/profile.js';
import { readBench } from '../../src/fitting/readings.js';
import { sensorSchema } from '../../src/sensors/schema.js';
import { speedOfSound } from '../../src/sensors/ultrasonic/air.js';
import type { Hearing } from '../../src/sensors/ultrasonic/hearing.js';
import { readingOf } from '../../src/sensors/ultrasonic/reading.js';
import { ultrasonicSchema } from '../../src/sensors/ultrasonic/schema.js';

test('an ultrasonic ranger in air of 8 °C whose controller takes 25 °C for granted', () => {
  const sensor = ultrasonicSchema.parse({
    kind: 'ultrasonic-ranger',
    bias_m: -0.012,
    assumed_temperature_c: 25,
    noise_m: 0.002,
    noise_per_m: 0.003,
  });
  const hearing = { speed_mps: speedOfSound(8), blind_m: 0.02, reach_m: 4 } as Hearing;
  const chance = Stream.root('round trip');
  const rows = [0.2, 0.3, 0.5, 0.8, 1.2, 1.7, 2.3].flatMap((d, k) =>
    Array.from({ length: 60 }, (_, i) => `${d},${readingOf(hearing, sensor, d, chance.at(100 * k + i)) / 1000}`),
  );
  const { bench } = readBench(`true_m,reading_mm\n${rows.join('\n')}\n`, 'b.csv');
  const options = { kind: 'ultrasonic-ranger', adc_bits: 10, adc_reference_v: 5, temperature_c: 8 } as const;
  const fit = fitBench(bench!, options)!;
  for (const one of fit.parameters.filter(({ name }) => name in sensor)) {
    const truth = (sensor as unknown as Record<string, number>)[one.name]!;
    // Four standard errors: each of six parameters misses with probability below 0.0001.
    if (truth !== 0) expect(Math.abs(one.value - truth) / one.standard_error!, one.name).toBeLessThan(4);
  }
  const again = sensorSchema.parse(parse(profileOf(fit, options, false).text));
  expect(again).toMatchObject({ kind: 'ultrasonic-ranger', frequency_khz: sensor.frequency_khz, stray_share: 0 });
});
