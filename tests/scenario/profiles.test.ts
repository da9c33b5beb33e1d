/** Profiles: a sensor's kind and keys in a file of its own, with keys beside it that go before. */
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { designOf, edit, messages } from './helpers.js';

/** As `jambeam fit` writes them; the numbers are invented. */
const FITTED = `# Profile of one triangulation-ranger
kind: triangulation-ranger
adc_bits: 12
gain_v_m: 0.2213               # ± 0.0011 V·m
offset_m: 0.0127               # ± 0.0004 m
switching:
  margin_m: 0.2
  median_of: 3
`;

const BASE = edit('    pair:', '    pair:\n      sensor: mine');
const scenario = (mine: string) => `${BASE}sensors:\n  mine: ${mine}\n`;
const withProfile = (text: string) => ({ readFile: () => text });
const complaints = (mine: string, profile = FITTED) => messages(scenario(mine), withProfile(profile));

describe('a profile is a whole sensor', () => {
  test('its keys, and the defaults of its kind for the rest', () => {
    const { sensors } = designOf(scenario('{ profile: mine.yaml }'), withProfile(FITTED));
    const written = designOf(
      scenario(
        '{ kind: triangulation-ranger, adc_bits: 12, gain_v_m: 0.2213, offset_m: 0.0127, switching: { margin_m: 0.2, median_of: 3 } }',
      ),
    );
    expect(sensors).toEqual(written.sensors);
    expect(JSON.stringify(sensors)).not.toContain('profile');
  });
  test('keys beside it go before its own; of switching, key by key', () => {
    const { mine } = designOf(
      scenario('{ profile: mine.yaml, gain_v_m: 0.3, switching: { margin_m: 0.1 } }'),
      withProfile(FITTED),
    ).sensors;
    expect(mine).toMatchObject({ gain_v_m: 0.3, offset_m: 0.0127, switching: { margin_m: 0.1, median_of: 3 } });
  });
  test('it is asked for by the name the scenario gives, once for all sensors', () => {
    const asked: string[] = [];
    const readFile = (file: string, what: string) => {
      asked.push(`${what} ${file}`);
      return FITTED;
    };
    designOf(`${scenario('{ profile: bench/mine.yaml }')}  other: { profile: bench/mine.yaml, adc_bits: 10 }\n`, {
      readFile,
    });
    expect(asked).toEqual(['profile bench/mine.yaml']);
  });
  test("its keys can be set, it can't", () => {
    const sets = ['sensors.mine.gain_v_m=0.25', 'sensors.mine.switching.margin_m=0.3'];
    const options = { ...withProfile(FITTED), sets };
    expect(designOf(scenario('{ profile: mine.yaml }'), options).sensors['mine']).toMatchObject({
      gain_v_m: 0.25,
      offset_m: 0.0127,
      switching: { margin_m: 0.3, median_of: 3 },
    });
    expect(
      messages(scenario('{ profile: mine.yaml }'), { ...options, sets: ['sensors.mine.profile=other.yaml'] }),
    ).toEqual(['--set sensors.mine.profile: a profile is named in the scenario only\n  hint: set its keys one by one']);
    for (const set of ['sensors.mine={ profile: other.yaml }', 'sensors={ mine: { profile: other.yaml } }'])
      expect(messages(scenario('{ profile: mine.yaml }'), { ...options, sets: [set] })).toEqual([
        expect.stringMatching(/^--set sensors\S*: a profile is named in the scenario only\n/),
      ]);
  });
});

describe('what is wrong is told where it was written', () => {
  test('in the profile', () => {
    const wrong = FITTED.replace('adc_bits: 12', 'adc_bits: 99')
      .replace('offset_m', 'ofset_m')
      .replace('median_of: 3', 'median_of: lots');
    expect(complaints('{ profile: mine.yaml }', wrong)).toEqual([
      'mine.yaml:3:11: adc_bits: expected 6 to 24 bits, found 99',
      'mine.yaml:5:1: ofset_m: unknown key "ofset_m"\n  hint: did you mean "offset_m"?',
      'mine.yaml:8:14: switching.median_of: expected a number, found the text "lots"',
    ]);
  });
  test('in the scenario', () => {
    expect(complaints('{ profile: mine.yaml, adc_bits: 99, blind_m: 0.1, switching: { margin_m: 90 } }')).toEqual([
      's.yaml:19:41: sensors.mine.adc_bits: expected 6 to 24 bits, found 99',
      expect.stringMatching(/^s\.yaml:19:45: sensors\.mine\.blind_m: unknown key "blind_m"/),
      's.yaml:19:82: sensors.mine.switching.margin_m: expected 0.005 to 5 metres, found 90\n' +
        '  hint: 90 looks like centimetres; write margin_m: 0.9',
    ]);
  });
  test('both at once, the scenario first', () => {
    const both = messages(scenario('{ profile: mine.yaml }').replace('width_m: 0.9', 'width_m: 90'), {
      readFile: () => FITTED.replace('kind: tri', 'kind: try'),
    });
    expect(both[0]).toMatch(/^s\.yaml:11:14: /);
    expect(both[1]).toMatch(
      /^mine\.yaml:2:7: kind: expected one of .*\n {2}hint: did you mean "triangulation-ranger"\?/,
    );
  });
  test('a text that is no profile hides everything about the sensor, and says so once', () => {
    expect(complaints('{ profile: mine.yaml, zzz: 1 }', '- 1\n')).toEqual([
      'mine.yaml:1:1: expected a map of keys, found a list\n  hint: keys with a colon, without dashes',
    ]);
    expect(complaints('{ profile: mine.yaml }', '')).toEqual([
      'mine.yaml:1:1: the profile is empty\n  hint: `jambeam fit` writes one',
    ]);
    expect(complaints('{ profile: mine.yaml }', 'kind: [\n')[0]).toMatch(/^mine\.yaml:\d+:\d+: this is no valid YAML/);
    expect(complaints('{ profile: mine.yaml }', 'gain_v_m: 1\n')).toEqual([
      expect.stringMatching(/^mine\.yaml:1:1: kind: the key "kind" is missing\n {2}hint: one of light-barrier, /),
    ]);
    expect(complaints('{ profile: mine.yaml }', `${FITTED}adc_bits: 12\n`)[0]).toMatch(
      /^mine\.yaml:9:1: adc_bits: the key "adc_bits" is here for a second time/,
    );
  });
  test('a profile does not name another', () => {
    expect(complaints('{ profile: mine.yaml }', `${FITTED}profile: other.yaml\n`)).toEqual([
      'mine.yaml:9:1: profile: a profile names no other profile\n  hint: its kind and keys stand in it',
    ]);
  });
  test('a file that is not there, or no file at all', () => {
    const readFile = () => ({ error: 'no such file' });
    expect(messages(scenario('{ profile: mine.yaml }'), { readFile })).toEqual([
      's.yaml:19:20: sensors.mine.profile: "mine.yaml" can\'t be read: no such file\n  hint: file names are relative to the scenario',
    ]);
    expect(messages(scenario('{ profile: mine.yaml }'))[0]).toContain('files cannot be read here');
    expect(complaints('{ profile: 5 }')).toEqual([
      's.yaml:19:20: sensors.mine.profile: expected text, found 5\n  hint: in quotes it is text: "5"',
    ]);
    expect(complaints('{ profile: "" }')[0]).toContain(
      'sensors.mine.profile: expected at least 1 character, found none',
    );
  });
  test('another kind beside it', () => {
    expect(complaints('{ profile: mine.yaml, kind: triangulation-ranger }')).toEqual([]);
    expect(complaints('{ profile: mine.yaml, kind: ultrasonic-ranger }')).toEqual([
      's.yaml:19:37: sensors.mine.kind: the profile "mine.yaml" is one of triangulation-ranger, found the text "ultrasonic-ranger"\n' +
        '  hint: leave kind to the profile',
    ]);
  });
});

test('files without end are not read', () => {
  const many = Array.from({ length: 300 }, (_, i) => `  s${i}: { profile: p${i}.yaml }\n`).join('');
  let read = 0;
  const { issues } = parseScenario(`${BASE.replace('sensor: mine', 'sensor: s1')}sensors:\n${many}`, 's.yaml', {
    readFile: () => (read++, FITTED),
  });
  expect(read).toBe(200);
  expect(issues).toHaveLength(100);
});
