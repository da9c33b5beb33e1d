/** A Vega-Lite spec drawn without a browser. */
import type { compile } from 'vega-lite';

type Lite = Parameters<typeof compile>[0];
type Compiled = ReturnType<typeof compile>['spec'];

/**
 * The picture as SVG text, and what vega was told to draw. Vega is loaded on the first call, because loading it takes longer
 * than most commands.
 *
 * @param spec a Vega-Lite spec
 */
export async function drawn(spec: object): Promise<{ readonly svg: string; readonly compiled: Compiled }> {
  const { ERRORS_ONLY, View, compile, parse } = await import('./vega.js');
  const { spec: compiled } = compile(spec as Lite);
  const view = new View(parse(compiled), { renderer: 'none', logLevel: ERRORS_ONLY });
  const svg = await view.toSVG();
  view.finalize();
  return { svg, compiled };
}
