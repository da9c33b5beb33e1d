"""Sound absorption of random airs, by other formulas than src/sensors/ultrasonic/air.ts uses.

- The long form: classical and rotational part 1.60e-10 * sqrt(T/T0) * f^2 / (p/pr) dB/m, and for oxygen and nitrogen
  a peak per wavelength 2 pi/35 * 10 lg e^2 * X * (theta/T)^2 * exp(-theta/T) with the curve of one relaxation (the formulas behind
  equations (3) to (5) of ISO 9613-1:1993; from memory, and checked below against the five values of an independent
  computation with scipy 1.10.1).
- Saturation pressure of water by the Goff-Gratch formula in the form of Bass et al., J. Acoust. Soc. Am. 97, 1995, 680
  (from memory), not by the short fit.
- The relaxation frequencies have no other form: they are the standard's.

Run: python3 tests/reference/absorption-values.py > tests/reference/absorption-values.json   (python 3 alone)
"""
import json
import math
import random

T0, T01, PR = 293.15, 273.16, 101.325
LOG = math.log10
# dB; 1.559.
PEAK = 2 * math.pi / 35 * 10 * LOG(math.e**2)


def saturation(kelvin):
    """Against the reference pressure."""
    x = T01 / kelvin
    return 10 ** (
        10.79586 * (1 - x)
        + 5.02808 * LOG(x)
        + 1.50474e-4 * (1 - 10 ** (-8.29692 * (1 / x - 1)))
        - 4.2873e-4 * (1 - 10 ** (-4.76955 * (x - 1)))
        - 2.2195983
    )


def short_saturation(kelvin):
    """The fit of the standard's annex; only for the check below."""
    return 10 ** (-6.8346 * (T01 / kelvin) ** 1.261 + 4.6151)


def absorption(hertz, celsius, humidity, kilopascal, saturated=saturation):
    kelvin, p = celsius + 273.15, kilopascal / PR
    h = humidity * saturated(kelvin) / p
    oxygen = p * (24 + 4.04e4 * h * (0.02 + h) / (0.391 + h))
    nitrogen = p * (T0 / kelvin) ** 0.5 * (9 + 280 * h * math.exp(-4.170 * ((T0 / kelvin) ** (1 / 3) - 1)))
    speed = 343.2 * math.sqrt(kelvin / T0)
    total = 1.60e-10 * math.sqrt(kelvin / T0) * hertz**2 / p
    for share, theta, relaxation in ((0.209, 2239.1, oxygen), (0.781, 3352.0, nitrogen)):
        peak = PEAK * share * (theta / kelvin) ** 2 * math.exp(-theta / kelvin)
        ratio = hertz / relaxation
        total += peak * hertz / speed * 2 * ratio / (1 + ratio**2)
    return total


for celsius, humidity, known in (
    (10, 50, 0.84846),
    (20, 20, 0.78369),
    (20, 50, 1.31900),
    (20, 70, 1.28631),
    (30, 50, 1.34124),
):
    assert abs(absorption(40e3, celsius, humidity, PR, short_saturation) - known) < 1e-5

rng = random.Random(9613)
rows = []
while len(rows) < 200:
    air = [
        round(rng.uniform(low, high), 3)
        # kHz, degrees Celsius, %, kPa
        for low, high in ((20, 80), (-5, 40), (10, 95), (80, 105))
    ]
    rows.append(air + [float(f"{absorption(air[0] * 1000, *air[1:]):.8g}")])
print('{\n "columns": ["frequency_khz", "temperature_c", "humidity_percent", "pressure_kpa", "absorption_db_per_m"],\n "rows": [')
print(",\n".join("  " + json.dumps(row) for row in rows))
print(" ]\n}")
