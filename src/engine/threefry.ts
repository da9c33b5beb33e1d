/**
 * Threefry-2x32 with 20 rounds: a keyed integer mix of a 64-bit counter, made of additions, rotations and
 * exclusive-ors alone. Source: J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, "Parallel random numbers: as easy
 * as 1, 2, 3", SC11 (2011), doi:10.1145/2063384.2063405.
 */

/** The last result; a shared pair instead of a fresh one per draw keeps the hot path free of allocation. */
export const THREEFRY = { x0: 0, x1: 0 };

const PARITY = 0x1bd11bda;

/** Mixes counter (c0, c1) under key (k0, k1), all 32-bit integers, into {@link THREEFRY}. */
export function threefry2x32(k0: number, k1: number, c0: number, c1: number): void {
  const k2 = PARITY ^ k0 ^ k1;
  let x0 = (c0 + k0) | 0;
  let x1 = (c1 + k1) | 0;
  // Rotations 13 15 26 6, then 17 29 16 24, with a key injection after every four rounds.
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 13) | (x1 >>> 19)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 15) | (x1 >>> 17)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 26) | (x1 >>> 6)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 6) | (x1 >>> 26)) ^ x0;
  x0 = (x0 + k1) | 0;
  x1 = (x1 + k2 + 1) | 0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 17) | (x1 >>> 15)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 29) | (x1 >>> 3)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 16) | (x1 >>> 16)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 24) | (x1 >>> 8)) ^ x0;
  x0 = (x0 + k2) | 0;
  x1 = (x1 + k0 + 2) | 0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 13) | (x1 >>> 19)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 15) | (x1 >>> 17)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 26) | (x1 >>> 6)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 6) | (x1 >>> 26)) ^ x0;
  x0 = (x0 + k0) | 0;
  x1 = (x1 + k1 + 3) | 0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 17) | (x1 >>> 15)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 29) | (x1 >>> 3)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 16) | (x1 >>> 16)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 24) | (x1 >>> 8)) ^ x0;
  x0 = (x0 + k1) | 0;
  x1 = (x1 + k2 + 4) | 0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 13) | (x1 >>> 19)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 15) | (x1 >>> 17)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 26) | (x1 >>> 6)) ^ x0;
  x0 = (x0 + x1) | 0;
  x1 = ((x1 << 6) | (x1 >>> 26)) ^ x0;
  x0 = (x0 + k2) | 0;
  x1 = (x1 + k0 + 5) | 0;
  THREEFRY.x0 = x0;
  THREEFRY.x1 = x1;
}
