/** Cautions that follow from facts, in words and with the place in the scenario that they are about. */
import { formatIssue } from '../scenario/explain.js';
import type { Issue, KeyPath } from '../scenario/issue.js';
import { showPath, valueAt } from '../scenario/key-path.js';
import type { Design } from '../scenario/schema.js';
import type { YamlSource } from '../scenario/yaml-source.js';
import { decimal, metres, plain } from '../report/words.js';
import type { DoorFacts, FactCaution } from '../simulate/fact-types.js';
import { shareWords, walkersWords } from './lines.js';
import { rangerCautionKey } from './ranger-caution-keys.js';
import { rangerCautionWords } from './ranger-caution-words.js';
import { milliseconds, speed } from './unit-words.js';

/** Issues in the order of doors; what is the same of several doors at one key once. @param source the scenario's text; without it the issues have no place */
export function factIssues(design: Design, facts: readonly DoorFacts[], source: YamlSource | null): Issue[] {
  const all = facts.flatMap(({ cautions }, door) =>
    cautions.map((caution): Issue => {
      const { message, hint } = cautionWords(caution);
      const written = writtenPath(caution, design, door, source);
      return {
        place: source ? source.place(written, 'value') : null,
        path: showPath(source ? source.value : design, written),
        problem: { code: 'other', message, hint },
      };
    }),
  );
  const told = new Set<string>();
  return all.filter((issue) => {
    const words = formatIssue(issue);
    return !told.has(words) && told.add(words);
  });
}

function cautionWords(caution: FactCaution): { message: string; hint: string } {
  switch (caution.code) {
    case 'too_high':
      return {
        message: `${shareWords(caution.unbroken)} of this door's walkers pass below ${metres(caution.height_m)} and break nothing`,
        hint: 'the height ladder shows what a lower beam would see',
      };
    case 'legs':
      return {
        message: `at ${metres(caution.height_m)} a walker breaks a beam ${decimal(caution.breaks, 2)} times on average: legs or arms, one by one`,
        hint: 'the height ladder shows where a body is one break',
      };
    case 'too_far':
      return {
        message: `${walkersWords(caution.apart)} never break ${plain(caution.first)} and ${plain(caution.second)} at one moment: what these meet of them is shallower than the spacing`,
        hint: 'a four-level walk never counts them; bring the beams closer together',
      };
    case 'too_close':
      return {
        message: `${plain(caution.first)} and ${plain(caution.second)} are nearer to each other (${metres(caution.spacing_m)}) than a beam is wide (${metres(caution.diameter_m)})`,
        hint: 'they break nearly together, and real frames are not that true',
      };
    case 'poll_slow':
      return {
        message: `reading every ${milliseconds(caution.poll.poll_ms)} is sure to see which beam breaks first only up to ${speed(caution.poll.sure_to_mps)}; ${walkersWords(caution.poll.unsure)} are faster`,
        hint: 'read more often, wire the inputs to interrupts, or set the beams further apart',
      };
    case 'response_slow':
      return {
        message: `a response time of ${milliseconds(caution.response_ms)} misses a break in ${shareWords(caution.unseen)} of crossings`,
        hint: 'take a quicker sensor, or a height at which breaks last longer',
      };
    case 'interference':
      return {
        message: `the emitter of ${plain(caution.emitter)} also shines into the receiver of ${plain(caution.receiver)}, which then only goes dark when both ways are blocked`,
        hint: 'separation: alternate or carriers, emitters in opposite jambs, or more spacing',
      };
    case 'narrow':
      return {
        message: `${shareWords(caution.turned)} of adults turn their shoulders in ${metres(caution.width_m)}`,
        hint: 'turned bodies are deeper; how people really go through such an opening is a guess',
      };
    case 'not_abreast':
      return {
        message: `the mix has adults abreast, and ${shareWords(caution.abreast)} of the drawn pairs fit into ${metres(caution.width_m)} side by side`,
        hint: 'those who do not fit go one after the other',
      };
    case 'zone_cut':
      return {
        message: `in ${shareWords(caution.cut)} of crossings a limb is still in a beam at the end of the zone, ${metres(caution.zone_m)} from the door plane`,
        hint: 'make zone_m larger: what is cut off is not counted',
      };
    default:
      return rangerCautionWords(caution);
  }
}

/** Where the number that a caution is about was written. */
function writtenPath(caution: FactCaution, design: Design, door: number, source: YamlSource | null): KeyPath {
  const own: KeyPath = ['doors', door];
  const pair = source !== null && valueAt(source.value, [...own, 'pair']) !== undefined;
  const beamAt = (name: string): number => design.doors[door]?.beams.findIndex((beam) => beam.name === name) ?? 0;
  const beamKey = (name: string, key: string, pairKey: string): KeyPath =>
    pair ? [...own, 'pair', pairKey] : [...own, 'beams', beamAt(name), key];
  const sensorKey = (name: string, key: readonly string[]): KeyPath => {
    const sensor = design.doors[door]?.beams[beamAt(name)]?.sensor ?? '';
    return Object.hasOwn(design.sensors, sensor) ? ['sensors', sensor, ...key] : beamKey(name, 'sensor', 'sensor');
  };
  const controllerKey = (key: string): KeyPath => {
    const name = design.doors[door]?.controller;
    return [
      'controllers',
      Math.max(
        0,
        design.controllers.findIndex((one) => one.name === name),
      ),
      key,
    ];
  };
  switch (caution.code) {
    case 'too_high':
    case 'legs':
      return beamKey(caution.beams[0] ?? '', 'height_m', 'height_m');
    case 'too_far':
    case 'too_close':
      return beamKey(caution.second, 'at_m', 'spacing_m');
    case 'poll_slow':
      return controllerKey('poll_ms');
    case 'response_slow':
      return sensorKey(caution.beams[0] ?? '', ['response_ms']);
    case 'interference':
      return sensorKey(caution.receiver, ['separation']);
    case 'narrow':
    case 'not_abreast':
      return [...own, 'width_m'];
    case 'zone_cut':
      return [...own, 'zone_m'];
    default: {
      const { of, beam, key } = rangerCautionKey(caution);
      if (of === 'door') return [...own, ...key];
      if (of === 'controller') return controllerKey(key[0] as string);
      if (of === 'sensor') return sensorKey(beam, key);
      return beamKey(beam, key[0] as string, (key[1] ?? key[0]) as string);
    }
  }
}
