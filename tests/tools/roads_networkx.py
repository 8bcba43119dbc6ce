#!/usr/bin/python3
"""Fastest drives on an OpenStreetMap extract, by another road than the engine's.

Reads the map with pyosmium, measures every piece of road with GeodSolve (GeographicLib), and searches with networkx's
Dijkstra over pieces between neighbouring points, so that it shares neither reading, lengths, graph, snapping nor
search with the engine. The rules are those of docs/routing.md with the plain class speeds: motorway 112, trunk and
primary 96, secondary 88, tertiary 80, unclassified 64, residential and living street 48, service 32 km/h, or the
tagged maxspeed where lower; no tracks, no ferries.

usage: roads_networkx.py MAP < places    one place a line: name latitude longitude; then "pair FROM TO" lines
output: FROM TO seconds metres, or FROM TO none; and snap NAME metres
"""
import math
import subprocess
import sys
from collections import defaultdict

import networkx
import osmium

SPEED = {"motorway": 112, "trunk": 96, "primary": 96, "secondary": 88, "tertiary": 80, "unclassified": 64, "road": 64,
         "minor": 64, "residential": 48, "living_street": 48, "service": 32}
SPEED.update({c + "_link": SPEED[c] for c in ("motorway", "trunk", "primary", "secondary", "tertiary")})
GOOD = {"yes", "permissive", "designated", "official", "public", "unknown", "destination", "customers", "visitors"}


def is_open(value):
    return any(word.strip() in GOOD for word in value.split(";"))


def access(tags):
    for key in ("motorcar", "motor_vehicle", "vehicle", "access"):
        if tags.get(key):
            return is_open(tags[key])
    return None


def limit(value):
    best = None
    for text in (value or "").split(";"):
        text = text.strip().lower()
        speed = None
        if text == "walk":
            speed = 7.0
        elif text == "none":
            speed = math.inf
        elif text.endswith("mph"):
            try:
                speed = float(text[:-3]) * 1.609344
            except ValueError:
                pass
        else:
            try:
                speed = float(text)
            except ValueError:
                pass
        if speed is not None and speed >= 1 and (best is None or speed < best):
            best = speed
    return best


class Map(osmium.SimpleHandler):
    def __init__(self):
        super().__init__()
        self.at, self.blocked, self.ways, self.restrictions = {}, set(), {}, []

    def node(self, n):
        if not n.location.valid():
            return
        self.at[n.id] = (n.location.lat, n.location.lon)
        tags = dict(n.tags)
        barrier = tags.get("barrier", "no")
        if barrier == "no":
            return
        open_for_cars = access(tags)
        if open_for_cars is None:
            if barrier in ("gate", "lift_gate", "swing_gate", "hampshire_gate", "sliding_gate"):
                open_for_cars = tags.get("locked") != "yes"
            else:
                open_for_cars = barrier in ("cattle_grid", "entrance", "toll_booth", "border_control", "kerb",
                                            "height_restrictor", "sally_port", "arch")
        if not open_for_cars:
            self.blocked.add(n.id)

    def way(self, w):
        tags = dict(w.tags)
        highway = tags.get("highway")
        if highway not in SPEED or access(tags) is False or tags.get("impassable") == "yes":
            return
        if tags.get("4wd_only") == "yes":
            return
        named = [tags[k] for k in ("motorcar", "motor_vehicle", "vehicle") if tags.get(k)]
        if tags.get("service") == "emergency_access" and not (named and is_open(named[0])):
            return
        oneway = tags.get("oneway", "")
        for key in ("oneway:vehicle", "oneway:motor_vehicle", "oneway:motorcar"):
            oneway = tags.get(key, oneway)
        if not oneway and (tags.get("junction") in ("roundabout", "circular") or highway == "motorway"):
            oneway = "yes"
        forward = oneway not in ("-1", "reverse", "reversible")
        backward = oneway not in ("yes", "true", "1", "reversible")
        for direction in ("forward", "backward"):
            for key in ("motorcar", "motor_vehicle", "vehicle"):
                value = tags.get(key + ":" + direction)
                if value:
                    if not is_open(value):
                        if direction == "forward":
                            forward = False
                        else:
                            backward = False
                    break
        if not forward and not backward:
            return
        speeds = []
        for direction, allowed in (("forward", forward), ("backward", backward)):
            legal = limit(tags.get("maxspeed:" + direction)) or limit(tags.get("maxspeed")) or math.inf
            speeds.append(min(SPEED[highway], legal) if allowed else 0)
        self.ways[w.id] = ([n.ref for n in w.nodes], speeds)

    def relation(self, r):
        tags = dict(r.tags)
        if tags.get("type") not in ("restriction", "restriction:motorcar", "restriction:motor_vehicle"):
            return
        value = tags.get("restriction:motorcar") or tags.get("restriction:motor_vehicle")
        if not value:
            value = tags.get("restriction", "")
            if {"motorcar", "motor_vehicle", "vehicle"} & {x.strip() for x in tags.get("except", "").split(";")}:
                return
        if "@" in value or "day_on" in tags or "hour_on" in tags:
            return
        if not value.startswith(("no_", "only_")):
            return
        members = [(m.type, m.ref, m.role) for m in r.members]
        pick = lambda kind, role: [ref for t, ref, ro in members if t == kind and ro == role]
        for a in pick("w", "from"):
            for b in pick("w", "to"):
                nodes = pick("n", "via")
                self.restrictions.append((value.startswith("only_"), a, nodes[-1] if nodes else None, pick("w", "via"), b))


def read(path):
    m = Map()
    m.apply_file(path)
    # Arcs: (key of tail, key of head). A blocked point is another point for every road that touches it, on each side.
    arcs = {}  # arc -> (position tail, position head, km/h, way)
    way_arcs = defaultdict(list)
    fresh = 0
    for wid in sorted(m.ways):
        refs, (fwd, bwd) = m.ways[wid]
        refs = [r for i, r in enumerate(refs) if i == 0 or r != refs[i - 1]]
        for a, b in zip(refs, refs[1:]):
            if a not in m.at or b not in m.at:
                continue
            ends = []
            for ref in (a, b):
                fresh += 1
                ends.append((ref, fresh) if ref in m.blocked else (ref, 0))
            for tail, head, speed in ((ends[0], ends[1], fwd), (ends[1], ends[0], bwd)):
                if speed > 0:
                    arc = (tail, head, wid)
                    if arc in arcs and arcs[arc][2] >= speed:
                        continue
                    arcs[arc] = (m.at[tail[0]], m.at[head[0]], speed)
                    way_arcs[wid].append(arc)
    lines = "".join("%.7f %.7f %.7f %.7f\n" % (a[0][0], a[0][1], a[1][0], a[1][1]) for a in arcs.values())
    done = subprocess.run(["GeodSolve", "-i", "-p", "4"], input=lines, capture_output=True, text=True, check=True)
    metres = {arc: float(line.split()[2]) for arc, line in zip(arcs, done.stdout.splitlines())}
    return m, arcs, way_arcs, metres


def sequences(m, arcs, way_arcs, out):
    """Sequences of arcs that may not be driven: list of tuples."""
    result, only = [], defaultdict(set)
    for is_only, a, via_node, via_ways, b in m.restrictions:
        if a not in way_arcs or b not in way_arcs or any(v not in way_arcs for v in via_ways):
            continue
        through = []
        if via_node is not None:
            here = there = (via_node, 0)
        else:
            if not via_ways:
                continue
            ends = lambda w: (m.ways[w][0][-1], m.ways[w][0][0])
            chain = via_ways + [b]
            start = [e for e in ends(a) if e in m.ways[via_ways[0]][0]]
            if not start:
                continue
            at, ok = start[0], True
            here = (at, 0)
            for i, v in enumerate(via_ways):
                refs = m.ways[v][0]
                goal = [e for e in ends(chain[i + 1]) if e in refs]
                if not goal or at not in refs:
                    ok = False
                    break
                goal = goal[0]
                i0, i1 = refs.index(at), refs.index(goal)
                path = refs[i0:i1 + 1] if i0 < i1 else refs[i1:i0 + 1][::-1]
                piece = [((x, 0), (y, 0), v) for x, y in zip(path, path[1:])]
                if not piece or any(p not in arcs for p in piece):
                    ok = False
                    break
                through += piece
                at = goal
            if not ok:
                continue
            there = (at, 0)
        incoming = [x for x in way_arcs[a] if x[1] == here]
        outgoing = [x for x in way_arcs[b] if x[0] == there]
        if len(incoming) != 1:
            continue
        if a == b and not through:
            outgoing = [x for x in outgoing if x[1] == incoming[0][0]]
        if len(outgoing) != 1:
            continue
        prefix = (incoming[0],) + tuple(through)
        if is_only:
            only[prefix].add(outgoing[0])
        else:
            result.append(prefix + (outgoing[0],))
    for prefix, exits in only.items():
        result += [prefix + (x,) for x in out[prefix[-1][1]] if x not in exits]
        for k in range(2, len(prefix)):
            result += [prefix[:k] + (x,) for x in out[prefix[k - 1][1]] if x != prefix[k]]
    return result


def main():
    m, arcs, way_arcs, metres = read(sys.argv[1])
    out = defaultdict(list)
    for arc in arcs:
        out[arc[0]].append(arc)
    forbidden = sequences(m, arcs, way_arcs, out)
    print("restrictions", len(m.restrictions), "sequences", len(forbidden), file=sys.stderr)
    by_first = defaultdict(list)
    for s in forbidden:
        by_first[s[0]].append(s)

    plain = networkx.DiGraph()
    plain.add_edges_from((a[0], a[1]) for a in arcs)
    # Large components are told by graph nodes as the engine counts them: junctions, ends, barriers.
    uses = defaultdict(int)
    for wid, (refs, _) in m.ways.items():
        for i, r in enumerate(refs):
            uses[r] += 2 if i in (0, len(refs) - 1) else 1
    big, sizes = {}, []
    for number, component in enumerate(networkx.strongly_connected_components(plain)):
        size = sum(1 for key in component if uses[key[0]] >= 2 or key[0] in m.blocked)
        sizes.append(size)
        for key in component:
            big[key] = number
    largest = max(sizes)

    def is_joined(arc):
        return big[arc[0]] == big[arc[1]] and sizes[big[arc[0]]] * 10 >= largest and sizes[big[arc[0]]] > 1

    def snap(place):  # nearest piece that joins the bulk: arc and share
        lat, lon = place
        ky, kx = 111132.0, 111320.0 * math.cos(math.radians(lat))
        best = (math.inf,)
        for arc, (p, q, _) in arcs.items():
            if abs(p[0] - lat) > 0.02 and abs(q[0] - lat) > 0.02:
                continue
            ax, ay = (p[1] - lon) * kx, (p[0] - lat) * ky
            dx, dy = (q[1] - lon) * kx - ax, (q[0] - lat) * ky - ay
            d2 = dx * dx + dy * dy
            t = min(1.0, max(0.0, -(ax * dx + ay * dy) / d2)) if d2 > 0 else 0.0
            d = math.hypot(ax + t * dx, ay + t * dy)
            if d < best[0] and is_joined(arc):
                best = (d, arc, t)
        return best

    # States: an arc just driven, with the forbidden sequences it is part way through.
    def begin(arc, active=()):
        return frozenset([(s, 1) for s in by_first[arc]] + list(active))

    def step(state, arc):
        """The state after driving `arc` from `state`; None when forbidden."""
        driven, active = state
        if (arc[1], arc[0]) == (driven[0], driven[1]) and arc[2] == driven[2] and len(out[driven[1]]) > 1:
            return None  # turning back on the road, and not at a dead end
        going = []
        for s, k in active:
            if s[k] == arc:
                if k + 1 == len(s):
                    return None
                going.append((s, k + 1))
        return (arc, begin(arc, going))

    seconds = {arc: 3.6 * metres[arc] / arcs[arc][2] for arc in arcs}
    graph = networkx.DiGraph()
    stack = [(arc, begin(arc)) for arc in arcs]
    seen = set(stack)
    while stack:
        state = stack.pop()
        for arc in out[state[0][1]]:
            after = step(state, arc)
            if after is None:
                continue
            graph.add_edge(state, after, weight=seconds[arc])
            if after not in seen:
                seen.add(after)
                stack.append(after)
    for state in seen:
        graph.add_node(state)

    by_arc = defaultdict(list)
    for state in seen:
        by_arc[state[0]].append(state)

    places, pairs = {}, defaultdict(list)
    for line in sys.stdin:
        words = line.split()
        if words and words[0] == "pair":
            pairs[words[1]].append(words[2])
        elif words:
            places[words[0]] = snap((float(words[1]), float(words[2])))
            print("snap", words[0], "%.2f" % places[words[0]][0])

    def both_ways(snapped):
        _, arc, t = snapped
        yield arc, t
        back = (arc[1], arc[0], arc[2])
        if back in arcs:
            yield back, 1 - t

    for name, wanted in pairs.items():
        # From the source along the rest of its piece; to a target along the first part of its own.
        start = [((arc, begin(arc)), 1 - t) for arc, t in both_ways(places[name])]
        graph.add_node("source")
        for state, share in start:
            graph.add_edge("source", state, weight=share * seconds[state[0]])
        before, distance = networkx.dijkstra_predecessor_and_distance(graph, "source")
        for target in wanted:
            best = (math.inf, 0.0)
            for arc, t in both_ways(places[target]):
                for arc0, t0 in both_ways(places[name]):
                    if arc0 == arc and t >= t0:
                        best = min(best, ((t - t0) * seconds[arc], (t - t0) * metres[arc]))
                for state in by_arc[arc]:
                    if state not in distance:
                        continue
                    # All of the last piece is in the distance: the part behind the target is taken off, unless the
                    # piece is the first one and only its part ahead of the source was driven.
                    if before[state][0] == "source":
                        continue
                    d = distance[state] - (1 - t) * seconds[arc]
                    if d < best[0]:
                        driven = [state]
                        while before[driven[-1]][0] != "source":
                            driven.append(before[driven[-1]][0])
                        m_driven = sum(metres[s[0]] for s in driven[:-1]) + dict(start)[driven[-1]] * metres[driven[-1][0]]
                        best = (d, m_driven - (1 - t) * metres[arc])
            if best[0] < math.inf:
                print(name, target, "%.3f" % best[0], "%.2f" % best[1])
            else:
                print(name, target, "none")
        graph.remove_node("source")


if __name__ == "__main__":
    main()
