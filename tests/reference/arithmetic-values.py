"""Reference values for src/engine/arithmetic.ts, correctly rounded from 60 digits.

Run: python3 tests/reference/arithmetic-values.py > tests/reference/arithmetic-values.json   (mpmath 1.3.0)
"""
import json
import random

import mpmath as mp

mp.mp.dps = 60
rng = random.Random(1)


def spread(n, low, high):
    return [rng.uniform(low, high) for _ in range(n)]


def log_spread(n, low, high):
    return [10.0 ** rng.uniform(low, high) for _ in range(n)]


def quantile(p):
    # 1 - p must not be rounded: erfinv at 60 digits of the exact double p.
    return mp.sqrt(2) * mp.erfinv(2 * mp.mpf(p) - 1)


cases = {
    "sin": [[x, float(mp.sin(x))] for x in spread(25, -20, 20) + [0.0, 1e-9, 3.141592653589793, 1e6]],
    "cos": [[x, float(mp.cos(x))] for x in spread(25, -20, 20) + [0.0, 1e-9, 1.5707963267948966, 1e6]],
    "exp": [[x, float(mp.exp(x))] for x in spread(25, -40, 40) + [0.0, 1e-10, 700.0, -700.0]],
    "ln": [[x, float(mp.log(x))] for x in log_spread(25, -12, 12) + [1.0, 1 + 2**-52, 1 - 2**-53, 2**-53]],
    "pow": [[x, y, float(mp.power(x, y))] for x, y in zip(log_spread(30, -3, 3), spread(30, -8, 8))],
    "atan2": [[y, x, float(mp.atan2(y, x))] for y, x in zip(spread(30, -3, 3), spread(30, -3, 3))],
    "normalCdf": [[x, float(mp.ncdf(x))] for x in spread(30, -8, 8) + [0.0]],
    "normalQuantile": [
        [p, float(quantile(p))] for p in spread(25, 0, 1) + [2**-53, 1e-6, 0.00135, 0.025, 0.975, 0.999, 1 - 2**-53]
    ],
}
print("{")
print(",\n".join(f' "{name}": {json.dumps(rows)}' for name, rows in cases.items()))
print("}")
