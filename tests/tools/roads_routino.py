#!/usr/bin/python3
"""Drives by Routino (Debian), with neutral preferences, so that it looks for the least time.

Two databases: as Routino makes it, for the time it says (the sum of its pieces), and with --prune-none, for the track,
whose WGS84 geodesic length is measured with GeodSolve. Routino cuts the length of each piece to whole metres and its
time to hundredths of a minute, so its own sums read low, the more the shorter the pieces.

usage: roads_routino.py MAP < places     lines as for roads_networkx.py
output: FROM TO seconds_as_said track_metres cpu_seconds, or FROM TO none
"""
import os
import resource
import subprocess
import sys
import tempfile

NEUTRAL = ["--highway-%s=100" % c for c in ("motorway", "trunk", "primary", "secondary", "tertiary", "unclassified",
                                            "residential", "service")]
NEUTRAL += ["--property-%s=50" % p for p in ("paved", "multilane", "bridge", "tunnel", "footroute", "bicycleroute")]


def lengths(points):
    lines = "".join("%s %s %s %s\n" % (a + b) for a, b in zip(points, points[1:]))
    done = subprocess.run(["GeodSolve", "-i", "-p", "4"], input=lines, capture_output=True, text=True, check=True)
    return [float(line.split()[2]) for line in done.stdout.splitlines()]


def route(folder, prefix, a, b):
    """Rows of quickest-all.txt; None when there is no way."""
    subprocess.run(["routino-router", "--dir=" + folder, "--prefix=" + prefix, "--profile=motorcar", "--quickest",
                    "--lat1=" + a[0], "--lon1=" + a[1], "--lat2=" + b[0], "--lon2=" + b[1], "--output-text-all"] +
                   NEUTRAL, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    try:
        with open(folder + "/quickest-all.txt", encoding="utf-8") as text:
            rows = [[cell.strip() for cell in line.split("\t")] for line in text if not line.startswith("#")]
        os.remove(folder + "/quickest-all.txt")
        return rows
    except FileNotFoundError:
        return None


def main():
    places, pairs = {}, []
    for line in sys.stdin:
        words = line.split()
        if words and words[0] == "pair":
            pairs.append((words[1], words[2]))
        elif words:
            places[words[0]] = (words[1], words[2])
    with tempfile.TemporaryDirectory() as folder:
        for prefix, option in (("r", []), ("n", ["--prune-none"])):
            subprocess.run(["planetsplitter", "--dir=" + folder, "--prefix=" + prefix,
                            "--tagging=/usr/share/routino/tagging-drive.xml", os.path.abspath(sys.argv[1])] + option,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
        for a, b in pairs:
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            said = route(folder, "r", places[a], places[b])
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
            track = route(folder, "n", places[a], places[b])
            if not said or not track:
                print(a, b, "none")
                continue
            pieces = lengths([(row[0], row[1]) for row in track])
            print(a, b, "%.1f" % (60 * sum(float(row[5]) for row in said)), "%.1f" % sum(pieces), "%.5f" % cpu)


if __name__ == "__main__":
    main()
