/** A module's logic as it counts at one door: each call is told to the heart, and whatever goes wrong has its place. */
import { faultOf } from '../counter/host-check.js';
import type { Logic, LogicInput, LogicStep } from '../counter/logic.js';
import type { DoorAbout } from '../counter/make-logic.js';
import { LONGEST_LABEL, type ModuleCode } from './code.js';
import { CodeProblem, shownText, whenAndWhere } from './code-problem.js';
import type { Definition } from './definition.js';
import { CALLS, type Call, type Heart } from './heart.js';
import { moduleProblem } from './module-error.js';
import { BrokenContract, REHEARSED, THEN_EVERY, rehearsed } from './rehearsal.js';

export interface LoadedModule {
  readonly code: ModuleCode;
  /** Index of the code in its job. */
  readonly index: number;
  readonly definition: Definition;
  /** Steps taken so far, at whichever door. */
  steps: number;
}

const STEP = CALLS.indexOf('step');

/** @throws {CodeProblem} when it expects another number of beams than the door has */
export function moduleLogic(loaded: LoadedModule, door: DoorAbout, heart: Heart): Logic {
  const { code, index, definition } = loaded;
  const { beams, latency_us = 0, readings, defeated_by } = definition;
  if (beams !== door.beams.length)
    throw new CodeProblem(
      `${shownText(code.shown)}: it expects ${beams} ${beams === 1 ? 'beam' : 'beams'} at every door, door ${shownText(door.name)} has ${door.beams.length}`,
      'change the beams, or `beams` of the logic',
    );
  const during = (call: Call, time_us: number): string => `in ${call}, ${whenAndWhere(time_us, door.name)}`;
  const called = <T>(call: 'initial' | 'label', what: () => T): T => {
    heart.enter(CALLS.indexOf(call), index, door.index, Number.NaN);
    try {
      return what();
    } catch (error) {
      throw moduleProblem(error, code, during(call, Number.NaN));
    } finally {
      heart.leave();
    }
  };
  const broken = (fault: string, time_us: number): CodeProblem =>
    new CodeProblem(`${shownText(code.shown)}: ${fault}\n  ${during('step', time_us)}`);

  return {
    name: code.name,
    latency_us,
    beams,
    readings,
    defeated_by: defeated_by ?? '',
    initial: () => called('initial', () => definition.initial()),
    step(state: unknown, input: LogicInput): LogicStep<unknown> {
      const { time_us } = input;
      const n = loaded.steps++;
      heart.enter(STEP, index, door.index, time_us);
      let step: LogicStep<unknown>;
      try {
        const twice = n < REHEARSED || n % THEN_EVERY === 0;
        step = twice ? rehearsed(definition, state, input) : definition.step(state, input);
      } catch (error) {
        heart.leave();
        throw error instanceof BrokenContract
          ? broken(error.message, time_us)
          : moduleProblem(error, code, during('step', time_us));
      }
      heart.leave();
      const fault = faultOf(step, time_us);
      if (fault !== null) throw broken(fault, time_us);
      return step;
    },
    label(state) {
      const label = called('label', () => (definition.label ? definition.label(state) : JSON.stringify(state)));
      return String(label).slice(0, LONGEST_LABEL);
    },
  };
}
