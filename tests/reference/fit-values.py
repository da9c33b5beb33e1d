"""Reference fits for src/fitting: the same readings by scipy.

Run: python3 tests/reference/fit-values.py > tests/reference/fit-values.json   (scipy 1.17.1, numpy 2)

Readings are invented, normal, without strays. Curves: scipy.optimize.curve_fit, weighted by one over the noise's
standard deviation, absolute_sigma=False, so that the covariance is (J'WJ)^-1 s^2. Noise: maximum likelihood of
S ~ v chi^2(nu) per distance, v = sd^2 + step^2/12 (Sheppard), by scipy.optimize.minimize; its covariance is the inverse
of the expected second derivatives, put together here from dv/dsd = 2 sd.
"""
import json

import numpy as np
from scipy.optimize import curve_fit, minimize

rng = np.random.default_rng(20240613)
ROWS = 30


def scatter(groups):
    return [(d, len(x) - 1, float(((x - x.mean()) ** 2).sum())) for d, x in groups]


def noise(groups, step, growing):
    rows = scatter(groups)

    def sd(p, d):
        return p[0] + (p[1] * d if growing else 0.0)

    def cost(p):
        total = 0.0
        for d, nu, s in rows:
            if sd(p, d) <= 0:
                return 1e12
            v = sd(p, d) ** 2 + step**2 / 12
            total += 0.5 * (nu * np.log(v) + s / v)
        return total

    start = [np.sqrt(np.mean([s / nu for _, nu, s in rows]))] + ([0.0] if growing else [])
    scale = start[0]
    best = minimize(lambda q: cost(q * scale), np.array(start) / scale, method="Nelder-Mead",
                    options={"xatol": 1e-11, "fatol": 1e-13, "maxiter": 20000, "maxfev": 20000})
    p = best.x * scale
    info = np.zeros((len(p), len(p)))
    for d, nu, _ in rows:
        v = sd(p, d) ** 2 + step**2 / 12
        g = 2 * sd(p, d) * np.array([1.0, d][: len(p)])
        info += nu / (2 * v * v) * np.outer(g, g)
    cov = np.linalg.inv(info)
    spread = [np.sqrt(sd(p, d) ** 2 + step**2 / 12) for d, _, _ in rows]
    return p, np.sqrt(np.diag(cov)), spread


def fit(curve, start, groups, step, growing):
    values, errors, spread = noise(groups, step, growing)
    d = np.concatenate([np.full(len(x), at) for at, x in groups])
    y = np.concatenate([x for _, x in groups])
    sigma = np.concatenate([np.full(len(x), s) for (_, x), s in zip(groups, spread)])
    p, cov = curve_fit(curve, d, y, p0=start, sigma=sigma, absolute_sigma=False, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    errors_p = np.sqrt(np.diag(cov))
    return {
        "curve": p.tolist(),
        "curve_errors": errors_p.tolist(),
        "correlations": (cov / np.outer(errors_p, errors_p)).tolist(),
        "noise": values.tolist(),
        "noise_errors": errors.tolist(),
    }


def hyperbola(d, gain, offset, base):
    return base + gain / (d + offset)


def line(d, offset, scale):
    return offset + scale * d


cases = {}

step = 5 / 1024
at = [0.1, 0.12, 0.15, 0.2, 0.27, 0.36, 0.5, 0.65, 0.8]
counts = [(d, np.floor((hyperbola(d, 0.21, 0.018, 0.07) + rng.normal(0, 0.006, ROWS)) / step)) for d in at]
groups = [(d, (n + 0.5) * step) for d, n in counts]
cases["triangulation"] = {
    "rows": [[d, int(x)] for d, n in counts for x in n],
    **fit(hyperbola, [0.2, 0.02, 0.0], groups, step, False),
}

at = [0.1, 0.2, 0.35, 0.5, 0.8, 1.2, 1.6, 2.0]
mm = [(d, np.round(1000 * (line(d, 0.006, 0.991) + rng.normal(0, 0.0015 + 0.003 * d, ROWS)))) for d in at]
groups = [(d, x / 1000) for d, x in mm]
cases["straight"] = {
    "rows": [[d, int(x)] for d, n in mm for x in n],
    **fit(line, [0.0, 1.0], groups, 0.001, True),
}

print(json.dumps(cases))
