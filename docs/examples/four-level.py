"""The four-level walk as a program of its own: --logic-process 'python3 four-level.py'.

It counts as the built-in four-level does, tally by tally, and tells its states, so that `jambeam passage` shows them.
"""
import sys

TIMEOUT_US = 10_000_000
LOST = 9

# The walk forward as levels of A and B; backward it is the mirror.
LEVELS_AT = {-3: "10", -2: "11", -1: "01", 0: "00", 1: "10", 2: "11", 3: "01"}
RING = ["00", "10", "11", "01"]


def quarter(before, now):
    """Steps around the ring: +1 forward, -1 backward, LOST where both beams changed."""
    steps = (RING.index(now) - RING.index(before)) % 4
    return {0: 0, 1: 1, 2: LOST, 3: -1}[steps]


def after(at, before, now):
    step = quarter(before, now)
    if step != LOST:
        return at + step
    if now == "00":
        return 0
    return {3: 1, -3: -1}.get(at, LOST)


def label(at):
    if at == LOST:
        return "lost"
    if at == 0:
        return "rest"
    return f"{'forward' if at > 0 else 'backward'} {abs(at)}/4"


at, since_us = 0, 0
for line in sys.stdin:
    words = line.split()
    if words[0] == "ready":
        print("jambeam-logic 1", "state rest", "ready", sep="\n", flush=True)
    elif words[0] == "flush":
        print(line, end="", flush=True)
    elif words[0].lstrip("-").isdigit():
        time_us, now = int(words[0]), words[1]
        was = at
        if at == LOST or (at != 0 and time_us - since_us >= TIMEOUT_US):
            at = 0 if now == "00" else LOST
        elif now != LEVELS_AT[at]:
            at, since_us = after(at, LEVELS_AT[at], now), time_us
            if now == "00" and at != LOST:
                if at == 4:
                    print("forward", time_us)
                if at == -4:
                    print("backward", time_us)
                at = 0
        if at != was:
            print("state", time_us, label(at))
