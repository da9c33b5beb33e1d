/**
 * A condition of a study, `spacing_m < 0.8 * jamb_depth_m`: numbers, names, `+ - * /`, comparisons, `&&` and `||`. A name is a
 * factor's, a key of a design (`doors.front.width_m`), or a key of doors, which then must hold for every door.
 *
 * Text from a study file is parsed into a tree of which only these parts are known; nothing of it is ever run.
 */
import jsep from 'jsep';
import { child } from '../../scenario/key-path.js';
import { pairOf } from '../../scenario/set-pair.js';
import { readPath } from '../../scenario/path.js';
import type { Design, DesignDoor } from '../../scenario/schema.js';

export interface Condition {
  readonly text: string;
  /** @throws {ConditionFault} in words, where a name leads nowhere */
  holds(design: Design, factors: ReadonlyMap<string, number | string>): boolean;
}

/** What is wrong with a condition, in words. */
export class ConditionFault extends Error {}

type Value = number | string | boolean;
type Names = (name: string) => Value;

const COMPARE: Readonly<Record<string, (a: Value, b: Value) => boolean>> = {
  '<': (a, b) => a < b,
  '<=': (a, b) => a <= b,
  '>': (a, b) => a > b,
  '>=': (a, b) => a >= b,
  '==': (a, b) => a === b,
  '!=': (a, b) => a !== b,
};
const ARITHMETIC: Readonly<Record<string, (a: number, b: number) => number>> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
};

/** @throws {ConditionFault} when the text is no condition */
export function conditionOf(text: string): Condition {
  let tree: jsep.Expression;
  try {
    tree = jsep(text);
  } catch (error) {
    const { description, index } = error as { description?: string; index?: number };
    throw new ConditionFault(
      `${description ?? 'no condition'}${index === undefined ? '' : ` at character ${index + 1}`}`,
    );
  }
  // What is no part of the grammar is found at once, not at the first design.
  checkParts(tree);
  if (!isTruth(tree)) throw new ConditionFault('expected a comparison, such as `spacing_m < 0.1`');
  return {
    text,
    holds: (design, factors) =>
      design.doors.every((door) => evaluate(tree, (name) => valueOf(name, design, door, factors)) === true),
  };
}

function isTruth(node: jsep.Expression): boolean {
  if (node.type !== 'BinaryExpression') return false;
  const { operator } = node as jsep.BinaryExpression;
  return operator in COMPARE || operator === '&&' || operator === '||';
}

function checkParts(node: jsep.Expression): void {
  switch (node.type) {
    case 'BinaryExpression': {
      const { operator, left, right } = node as jsep.BinaryExpression;
      if (!(operator in COMPARE || operator in ARITHMETIC || operator === '&&' || operator === '||'))
        throw new ConditionFault(`${operator} is not known here`);
      checkParts(left);
      checkParts(right);
      return;
    }
    case 'UnaryExpression':
      if ((node as jsep.UnaryExpression).operator !== '-') break;
      return checkParts((node as jsep.UnaryExpression).argument);
    case 'Literal':
    case 'Identifier':
      return;
    case 'MemberExpression':
      return void nameOf(node);
  }
  throw new ConditionFault('expected names, numbers, + - * / and comparisons');
}

function evaluate(node: jsep.Expression, names: Names): Value {
  switch (node.type) {
    case 'Literal':
      return (node as jsep.Literal).value as Value;
    case 'UnaryExpression':
      return -numberOf(evaluate((node as jsep.UnaryExpression).argument, names));
    case 'BinaryExpression': {
      const { operator, left, right } = node as jsep.BinaryExpression;
      if (operator === '&&') return evaluate(left, names) === true && evaluate(right, names) === true;
      if (operator === '||') return evaluate(left, names) === true || evaluate(right, names) === true;
      const [a, b] = [evaluate(left, names), evaluate(right, names)];
      return COMPARE[operator]?.(a, b) ?? ARITHMETIC[operator]!(numberOf(a), numberOf(b));
    }
    default:
      return names(nameOf(node));
  }
}

function numberOf(value: Value): number {
  if (typeof value === 'number') return value;
  throw new ConditionFault(`expected a number, found ${String(value)}`);
}

/** `doors.front.width_m` as it was written. */
function nameOf(node: jsep.Expression): string {
  if (node.type === 'Identifier') return (node as jsep.Identifier).name;
  if (node.type !== 'MemberExpression') throw new ConditionFault('expected a name');
  const { object, property, computed } = node as jsep.MemberExpression;
  if (computed) throw new ConditionFault('expected names parted by dots');
  return `${nameOf(object)}.${nameOf(property)}`;
}

function valueOf(name: string, design: Design, door: DesignDoor, factors: ReadonlyMap<string, number | string>): Value {
  const factor = factors.get(name);
  if (factor !== undefined) return factor;
  const ofPair = child(pairOf(door), name);
  const found = readPath(design, name).matches[0]?.value ?? child(door, name) ?? ofPair;
  if (typeof found === 'number' || typeof found === 'string' || typeof found === 'boolean') return found;
  throw new ConditionFault(`${name} is no factor, and no number of a design or of its doors`);
}
