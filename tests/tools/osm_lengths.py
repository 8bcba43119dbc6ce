# Reads an OpenStreetMap extract with pyosmium and prints, for each value of highway=*, how long its ways are on the square of
# Web Mercator (side 1): the outside check of the roads on our map.
import collections
import math
import sys

import osmium


def place(location):
    latitude = math.radians(location.lat)
    return (location.lon + 180) / 360, (1 - math.log(math.tan(latitude) + 1 / math.cos(latitude)) / math.pi) / 2


class Lengths(osmium.SimpleHandler):
    def __init__(self):
        super().__init__()
        self.by_value = collections.Counter()

    def way(self, way):
        value = way.tags.get("highway")
        if value is None or way.tags.get("area") == "yes":
            return
        before = None
        for node in way.nodes:
            if not node.location.valid():
                before = None
                continue
            here = place(node.location)
            if before is not None:
                self.by_value[value] += math.dist(before, here)
            before = here


lengths = Lengths()
lengths.apply_file(sys.argv[1], locations=True)
for value, length in lengths.by_value.items():
    if " " not in value:
        print(value, repr(length))
