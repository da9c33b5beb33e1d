/** A fit as a terminal shows it: what was found, how sure it is, and what to mind. */
import type { Fit } from '../fitting/fit.js';
import type { Parameter } from '../fitting/parameter.js';
import { errorText } from '../fitting/profile.js';
import { supported } from '../fitting/rounding.js';
import { count, plural } from '../report/words.js';
import type { Paint } from './io.js';
import { columns, folded } from './lines.js';

export function fitText(fit: Fit, paint: Paint): string {
  const head = ['parameter', 'value', 'standard error', '95 % interval', 'unit'].map((word) => paint.bold(word));
  const rows = fit.parameters.map((one) => [
    one.key ? one.name : `(${one.name})`,
    supported(one.value, one.alone),
    errorText(one),
    `${supported(one.low, widthOf(one))} to ${supported(one.high, widthOf(one))}`,
    one.unit,
  ]);
  return [
    `${paint.bold(paint.cyan(`${fit.kind}: ${plural(fit.rows, 'row')} at ${plural(fit.distances_m.length, 'distance')}`))}`,
    `${fit.strays === 0 ? 'no reading looks like a stray' : `${plural(fit.strays, 'reading')} more likely ${fit.strays === 1 ? 'a stray' : 'strays'} than not`}, ${fit.silent === 0 ? 'none without echo' : `${count(fit.silent)} without echo`}\n`,
    columns([head, ...rows], ['left', 'right', 'right', 'right', 'left']),
    ...fit.correlations.map((one) => correlationText(one.names, one.matrix, paint)),
    ...remarks(fit).map((one) => folded(one)),
  ].join('\n');
}

/** What an interval's ends are rounded by. */
const widthOf = ({ standard_error, low, high }: Parameter): number => standard_error ?? (high - low) / 4;

function correlationText(names: readonly string[], matrix: readonly (readonly number[])[], paint: Paint): string {
  const head = ['correlations', ...names].map((word) => paint.bold(word));
  const rows = names.map((name, i) => [name, ...matrix[i]!.slice(0, i + 1).map((x) => x.toFixed(4))]);
  const full = rows.map((row) => [...row, ...Array.from({ length: head.length - row.length }, () => '')]);
  return columns([head, ...full], ['left', ...names.map(() => 'right' as const)]);
}

/** What has to be said in sentences. */
export function remarks(fit: Fit): string[] {
  const { misfit, misfit_limit } = fit.fitted;
  const notes = fit.parameters.flatMap((one: Parameter) => (one.note === '' ? [] : [`${one.name}: ${one.note}`]));
  const [first] = fit.correlations;
  const most = Math.max(...(first?.matrix.flatMap((row, i) => row.filter((_, j) => j < i).map(Math.abs)) ?? [0]));
  if (fit.kind === 'triangulation-ranger')
    notes.push(
      `The curve's parameters stand for one another (correlations up to ${most.toFixed(4)}): none of the three is known as well as the curve is. Use them together.`,
    );
  if (misfit > misfit_limit)
    notes.push(
      `The means miss the curve by more than noise explains: ${misfit.toPrecision(2)} times the variance, where ${misfit_limit.toPrecision(2)} is chance. Standard errors were made larger for it. Look at the lower half of the chart: a slip of the tape at one distance, or a curve of another shape?`,
    );
  return notes;
}
