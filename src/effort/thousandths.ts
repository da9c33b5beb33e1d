/** To a thousandth: metres to whole millimetres, so that money is made of whole numbers; minutes and watt-hours likewise. */
export function thousandths(x: number): number {
  return Math.round(x * 1000) / 1000;
}
