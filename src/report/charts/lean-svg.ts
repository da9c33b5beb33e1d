/**
 * Vega's SVG without what only bloats: attributes that say what holds anyway or what the page's style says
 * (`.still text`, `.still line`), and lines drawn point by point that go along or across.
 */

/** @param inner of the `svg` element */
export function leanSvg(inner: string): string {
  return inner
    .replace(/<path class="(?:background|foreground)"[^>]*\/>/g, '')
    .replace(/ (?:class|role|aria-[a-z]+|pointer-events|font-family)="[^"]*"/g, '')
    .replace(/ (?:opacity|stroke-opacity|fill-opacity|stroke-width)="1"/g, '')
    .replace(/ (?:font-size="12px"|font-weight="normal"|stroke-miterlimit="4"|text-anchor="start"|[xy]2="0")/g, '')
    .replace(/(<text[^>]*) fill="var\(--ink\)"/g, '$1')
    .replace(/(<line[^>]*) stroke="var\(--rule\)"/g, '$1')
    .replace(/ (d|transform)="([^"]*)"/g, (_, name: string, value: string) => {
      const short = value.replace(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number) * 10) / 10));
      if (name === 'd') return ` d="${straightened(short)}"`;
      return short === 'translate(0,0)' ? '' : ` transform="${short}"`;
    })
    .replace(/<g>\s*<\/g>/g, '');
}

/** Points of a polyline that differ in one coordinate only are told by that one: H and V instead of L. */
function straightened(path: string): string {
  let [x, y] = ['', ''];
  return path.replace(/([A-Za-z])([^A-Za-z]*)/g, (whole, command: string, rest: string) => {
    if (command !== 'M' && command !== 'L') {
      [x, y] = ['', ''];
      return whole;
    }
    const [left, top = ''] = rest.split(',') as [string, string?];
    const said = command === 'M' ? whole : left === x ? (top === y ? '' : `V${top}`) : top === y ? `H${left}` : whole;
    [x, y] = [left, top];
    return said;
  });
}
