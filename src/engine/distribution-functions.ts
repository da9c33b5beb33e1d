/**
 * Distribution functions and quantiles that give the same last bit on every JavaScript engine, as arithmetic.ts. Apart from it,
 * for they are hundreds of modules to read: who only needs a sine doesn't wait for them.
 */
export { default as betaQuantile } from '@stdlib/stats-base-dists-beta-quantile';
export { default as binomialCdf } from '@stdlib/stats-base-dists-binomial-cdf';
export { default as chiSquareQuantile } from '@stdlib/stats-base-dists-chisquare-quantile';
export { default as normalCdf } from '@stdlib/stats-base-dists-normal-cdf';
export { default as normalQuantile } from '@stdlib/stats-base-dists-normal-quantile';
export { default as tCdf } from '@stdlib/stats-base-dists-t-cdf';
export { default as tQuantile } from '@stdlib/stats-base-dists-t-quantile';
