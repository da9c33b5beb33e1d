/** jStat ships no types: the few functions that tests call. */
declare module 'jstat' {
  interface Distribution {
    inv(p: number, ...parameters: number[]): number;
    cdf(x: number, ...parameters: number[]): number;
    pdf(x: number, ...parameters: number[]): number;
  }
  const jstat: Record<
    'normal' | 'lognormal' | 'exponential' | 'chisquare' | 'studentt' | 'beta' | 'binomial' | 'poisson',
    Distribution
  >;
  export default jstat;
}
