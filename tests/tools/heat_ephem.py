#!/usr/bin/env python3
"""Where the sun stands and when it rises, by python3-ephem (Debian): the outside check of our sun.

usage: heat_ephem.py heights FILE   a line of FILE: latitude longitude unix-seconds
                                    prints: zenith and azimuth of the centre without refraction, distance in AU
       heat_ephem.py times FILE     a line of FILE: latitude longitude unix-seconds of the first of 24 hours
                                    prints: dawn, sunrise, sunset, dusk as seconds after that, "-" where there is none
"""
import math
import sys
from datetime import datetime, timedelta

import ephem

EPOCH = datetime(1970, 1, 1)


def observer(latitude, longitude, seconds):
    o = ephem.Observer()
    o.lat, o.lon = str(latitude), str(longitude)
    o.pressure = 0  # no refraction: it is in the height that counts as sunrise
    o.date = ephem.Date(EPOCH + timedelta(seconds=seconds))
    return o


def heights(latitude, longitude, seconds):
    sun = ephem.Sun(observer(latitude, longitude, seconds))
    print("%.6f %.6f %.8f" % (90 - math.degrees(sun.alt), math.degrees(sun.az), sun.earth_distance))


def event(latitude, longitude, seconds, height, find):
    o = observer(latitude, longitude, seconds)
    o.horizon = str(height)
    try:
        at = find(o)(ephem.Sun(), use_center=True)
    except (ephem.AlwaysUpError, ephem.NeverUpError):
        return "-"
    after = (at.datetime() - EPOCH).total_seconds() - seconds
    return "%.1f" % after if after < 86400 else "-"


def times(latitude, longitude, seconds):
    rising = lambda o: o.next_rising
    setting = lambda o: o.next_setting
    print(*(event(latitude, longitude, seconds, height, find)
            for height, find in ((-6, rising), (-0.833, rising), (-0.833, setting), (-6, setting))))


def main():
    job = {"heights": heights, "times": times}[sys.argv[1]]
    with open(sys.argv[2]) as file:
        for line in file:
            job(*map(float, line.split()))


if __name__ == "__main__":
    main()
