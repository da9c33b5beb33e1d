/** What clothes absorb is an assumption: the first replicates run again at its two ends. */
import { expect, test } from 'vitest';
import { clothingDesigns } from '../../src/simulate/clothing-runs.js';
import { simulate } from '../../src/simulate/simulate.js';
import { aimed } from '../../src/scenario/resolve.js';
import type { Design } from '../../src/scenario/schema.js';
import { doorDesign } from './designs.js';
import { plainRun } from './plain-run.js';

function withSensor(sensor: string): Design {
  const design = { ...doorDesign({ sensor }), replicates: 5, hours: 1 };
  return {
    ...design,
    doors: design.doors.map((door) => ({ ...door, beams: door.beams.map((beam) => aimed(beam, design.sensors)) })),
  };
}

test('light barriers and infrared spots do not mind clothes: nothing is run again', () => {
  for (const kind of ['light-barrier', 'triangulation-ranger'])
    expect(clothingDesigns(withSensor(`{ kind: ${kind} }`))).toBeNull();
  expect(
    clothingDesigns(withSensor('{ kind: ultrasonic-ranger, clothing_least_db: 7, clothing_most_db: 7 }')),
  ).toBeNull();
  expect(simulate(withSensor('{ kind: light-barrier }')).figures.clothing).toBeUndefined();
});

test('at its ends everybody absorbs the same; the least absorbing clothes are the brightest', () => {
  const sound = clothingDesigns(withSensor('{ kind: ultrasonic-ranger, clothing_least_db: 1, clothing_most_db: 9 }'))!;
  expect(sound.least.sensors['barrier']).toMatchObject({ clothing_least_db: 1, clothing_most_db: 1 });
  expect(sound.most.sensors['barrier']).toMatchObject({ clothing_least_db: 9, clothing_most_db: 9 });
  const light = clothingDesigns(withSensor('{ kind: time-of-flight-ranger }'))!;
  expect(light.least.sensors['barrier']).toMatchObject({ reflectance_least: 0.8, reflectance_most: 0.8 });
});

test('four replicates, the same crowds; the middle row is the run itself', () => {
  const design = withSensor('{ kind: ultrasonic-ranger, clothing_most_db: 60 }');
  const { clothing } = simulate(design).figures;
  expect(clothing!.map(({ what, replicates }) => [what, replicates])).toEqual([
    ['least', 4],
    ['as drawn', 4],
    ['most', 4],
  ]);
  const [least, drawn, most] = clothing!.map((run) => run.wrong_per_100);
  expect(drawn).toEqual(plainRun({ ...design, replicates: 4 }).metrics.house.wrong_per_100);
  // 60 dB off every echo: nobody gives one, though bodies still hide the jamb.
  expect(most!.value!).toBeGreaterThan(least!.value! + 20);
});
