/**
 * Transcendental functions that give the same last bit on every JavaScript engine.
 *
 * The core never calls `Math.sin` and its kin: engines differ in the last bit. These ports are made of
 * `+ − × ÷ sqrt` alone (stdlib's, after FDLIBM and Cephes). This is the only file of the core that names them.
 */
export { default as atan2 } from '@stdlib/math-base-special-atan2';
export { default as besselj1 } from '@stdlib/math-base-special-besselj1';
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as ln } from '@stdlib/math-base-special-ln';
export { default as pow } from '@stdlib/math-base-special-pow';
export { default as sin } from '@stdlib/math-base-special-sin';
export { default as betaQuantile } from '@stdlib/stats-base-dists-beta-quantile';
export { default as binomialCdf } from '@stdlib/stats-base-dists-binomial-cdf';
export { default as chiSquareQuantile } from '@stdlib/stats-base-dists-chisquare-quantile';
export { default as normalCdf } from '@stdlib/stats-base-dists-normal-cdf';
export { default as normalQuantile } from '@stdlib/stats-base-dists-normal-quantile';
export { default as tCdf } from '@stdlib/stats-base-dists-t-cdf';
export { default as tQuantile } from '@stdlib/stats-base-dists-t-quantile';

export const PI = 3.141592653589793;
export const DEG = PI / 180;
