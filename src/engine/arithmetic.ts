/**
 * Transcendental functions that give the same last bit on every JavaScript engine.
 *
 * The core never calls `Math.sin` and its kin: engines differ in the last bit. These ports are made of
 * `+ − × ÷ sqrt` alone (stdlib's, after FDLIBM and Cephes). This file and distribution-functions.ts are the only ones that name them.
 */
export { default as atan2 } from '@stdlib/math-base-special-atan2';
export { default as besselj1 } from '@stdlib/math-base-special-besselj1';
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as ln } from '@stdlib/math-base-special-ln';
export { default as pow } from '@stdlib/math-base-special-pow';
export { default as sin } from '@stdlib/math-base-special-sin';

export const PI = 3.141592653589793;
export const DEG = PI / 180;
