#!/usr/bin/env python3
"""What python3-gpxpy (Debian) makes of GPX files: the outside check of our reader, lengths and climb.

usage: course_gpxpy.py points FILE...    each track, route, point and waypoint, one a line
       course_gpxpy.py lengths FILE...   a track a line: length_2d, uphill, downhill of its stretches with heights
Each file begins with a line "file" and its name; one that gpxpy refuses has the line "refused".
"""
import os
import sys

import gpxpy
import gpxpy.gpx


def number(value):
    return "-" if value is None else "%.7f" % (round(value, 7) + 0.0)  # no minus zero


def clean(text):
    return " ".join((text or "").split())


def point(kind, p):
    print(kind, number(p.latitude), number(p.longitude), number(p.elevation), "time" if p.time else "-", sep="\t")


def points(gpx):
    for track in gpx.tracks:
        if not any(s.points for s in track.segments):
            continue
        print("trk", clean(track.name), sep="\t")
        for segment in track.segments:
            if segment.points:
                print("seg")
            for p in segment.points:
                point("pt", p)
    for route in gpx.routes:
        if route.points:
            print("rte", clean(route.name), sep="\t")
        for p in route.points:
            point("pt", p)
    for p in gpx.waypoints:
        print("wpt", clean(p.name), number(p.latitude), number(p.longitude), number(p.elevation), sep="\t")


def stretches(segment):
    """The pieces of a segment with heights throughout: gpxpy takes a missing height for 0 m."""
    piece = []
    for p in segment.points:
        if p.elevation is None:
            if piece:
                yield piece
            piece = []
        else:
            piece.append(p)
    if piece:
        yield piece


def lengths(gpx):
    for track in gpx.tracks:
        up = down = 0.0
        for segment in track.segments:
            for piece in stretches(segment):
                hills = gpxpy.gpx.GPXTrackSegment(piece).get_uphill_downhill()
                up += hills.uphill
                down += hills.downhill
        print(clean(track.name), "%.3f" % (track.length_2d() or 0), "%.3f" % up, "%.3f" % down, sep="\t")


def main():
    job = {"points": points, "lengths": lengths}[sys.argv[1]]
    for name in sys.argv[2:]:
        print("file", os.path.basename(name), sep="\t")
        try:
            with open(name, "rb") as file:
                gpx = gpxpy.parse(file)
        except Exception:  # gpxpy lets the errors of its parser and of float() through
            print("refused")
            continue
        job(gpx)


if __name__ == "__main__":
    main()
