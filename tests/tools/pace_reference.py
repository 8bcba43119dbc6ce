#!/usr/bin/python3
"""Simulates a ride again, with numpy and from the formulas of docs/pace.md alone, and compares arrivals.

Usage: pace_reference.py RIDE.json    (written by tests/pace_reference_test.cpp: the ride and the figures to check)

Nothing is shared with the engine: the wandering part of the pace is stepped here every 50 m with the exact transition of
an Ornstein-Uhlenbeck process, where the engine draws means over 2 km. Mean, p10, p50 and p90 of every arrival must agree
within 4.5 standard errors of both samples together plus 3 s (grids, and the mean of a piece against the mean of exp).
Exit code 0: all agree; 1: one does not; 77: numpy is missing.
"""
import json
import sys

try:
    import numpy as np
except ImportError:
    print("python3-numpy is not installed")
    sys.exit(77)

STEP = 50.0  # metres


def cost(g):
    g = np.clip(g, -0.30, 0.30)
    return np.where(g >= 0, 0.123 + 1.561 * g, 0.123 + 1.591 * g + 9.762 * g**2 + 14.0 * g**3)


def riding_seconds(loop):
    """Expected seconds of each 50 m of the loop."""
    n = int(round(loop["length"] / STEP))
    middle = (np.arange(n) + 0.5) * STEP
    gradient = np.array(loop["gradient"])
    # a step of 50 m covers two cells of 25 m, ridden one after the other
    first = gradient[2 * np.arange(n)]
    second = gradient[2 * np.arange(n) + 1]
    pace = 0.5 / np.minimum(0.123 / cost(first), 1.05) + 0.5 / np.minimum(0.123 / cost(second), 1.05)
    for section in loop["going"]:
        inside = (middle > section["from"]) & (middle < section["to"])
        pace = np.where(inside, pace / section["factor"], pace)
    seconds = pace * STEP * 3.6 / loop["speed"]
    if loop["is_average"]:
        seconds *= loop["length"] * 3.6 / loop["speed"] / seconds.sum()
    return seconds / loop["heat_factor"]


def simulate(ride, days, rng):
    def lognormal(time):
        return time["median"] * np.exp(time["log_sd"] * rng.standard_normal(days))

    spread = ride["spread"]
    now = lognormal(ride["start_delay"])
    form = spread["ride"] * rng.standard_normal(days)
    keep = np.exp(-STEP / spread["within_length"])
    noise = spread["within"] * np.sqrt(1 - keep**2)
    arrivals = []
    for index, loop in enumerate(ride["loops"]):
        scale = np.exp(form + spread["loop"] * rng.standard_normal(days))
        x = spread["within"] * rng.standard_normal(days)
        passes = {int(round(p["along"] / STEP)): p for p in loop["passes"]}
        for i, seconds in enumerate(riding_seconds(loop)):
            after = keep * x + noise * rng.standard_normal(days)
            now = now + seconds * scale * np.exp(0.5 * (x + after))
            x = after
            if i + 1 in passes:
                arrivals.append(now)
                stand = lognormal(passes[i + 1]["stop"])
                if passes[i + 1]["is_met"]:
                    now = now + stand
        arrivals.append(now)
        now = now + lognormal(loop["recovery"]) + loop["hold"]
    return arrivals


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        ride = json.load(file)
    days = 20000
    arrivals = simulate(ride, days, np.random.default_rng(20260613))
    per_day = np.sqrt(1 / days + 1 / ride["days"])
    worst = 0.0
    bad = 0
    for event, (ours, theirs) in enumerate(zip(arrivals, ride["events"])):
        sd = ours.std()
        # density at a quantile: that of the normal of the same spread, good enough for an error bar
        checks = [("mean", ours.mean(), sd * per_day)]
        for name, p, density in (("p10", 0.1, 0.17550), ("p50", 0.5, 0.39894), ("p90", 0.9, 0.17550)):
            checks.append((name, np.quantile(ours, p), np.sqrt(p * (1 - p)) / density * sd * per_day))
        for name, value, error in checks:
            off = abs(value - theirs[name])
            worst = max(worst, off / error)
            if off > 4.5 * error + 3.0:
                bad += 1
                print(f"event {event} {name}: {value:.1f} s here, {theirs[name]:.1f} s there, standard error {error:.1f} s")
        if abs(sd / theirs["sd"] - 1) > 0.03:
            bad += 1
            print(f"event {event} sd: {sd:.1f} s here, {theirs['sd']:.1f} s there")
    if len(arrivals) != len(ride["events"]):
        bad += 1
        print(f"{len(arrivals)} events here, {len(ride['events'])} there")
    print(f"{len(arrivals)} events, {days} days here and {ride['days']} there; worst difference {worst:.2f} standard errors")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
