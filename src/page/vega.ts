/** A chart drawn in the page: vega with its interpreter, which needs no eval. */
import { View, parse, type Spec } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { type LiveChart, SPAN } from '../report/charts/live.js';

interface Named {
  readonly name?: string;
  readonly type: string;
}

/** The chart in an element, with the signal {@link SPAN} where x is time. */
export async function drawnIn(place: HTMLElement, chart: LiveChart): Promise<View> {
  const spec = chart.clock_h === null ? chart.spec : followingSpan(chart.spec as Compiled);
  const view = new View(parse(spec as Spec, {}, { ast: true }), {
    expr: expressionInterpreter,
    renderer: 'svg',
    container: place,
    hover: false,
  });
  await view.runAsync();
  return view;
}

interface Compiled {
  readonly scales?: readonly Named[];
  readonly marks?: readonly Named[];
}

/** Within the plot lines are cut where a span ends. */
function followingSpan(spec: Compiled): object {
  return {
    ...spec,
    scales: spec.scales?.map((scale) => (scale.name === 'x' ? { ...scale, domainRaw: { signal: SPAN } } : scale)),
    marks: spec.marks?.map((mark) => (mark.type === 'text' ? mark : { ...mark, clip: true })),
  };
}
