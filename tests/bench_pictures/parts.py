"""Parts of a wiring bench as POV-Ray text. Centimetres; x to the right, y up, z away from the viewer."""

import math
import random
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]
Point = Sequence[float] | Vector
Points = Sequence[Point]

WIRE, COPPER = 0.13, 0.085  # radii: 0.75 to 1 mm2 with thin insulation

# Linear light, not screen values. Pigment of each insulation colour code.
INSULATION = {
    "BK": (0.016, 0.016, 0.018), "BN": (0.13, 0.042, 0.014), "RD": (0.66, 0.018, 0.018), "OR": (0.82, 0.22, 0.02),
    "YE": (0.86, 0.60, 0.02), "GN": (0.02, 0.24, 0.06), "BU": (0.02, 0.09, 0.48), "VT": (0.20, 0.03, 0.42),
    "GY": (0.125, 0.13, 0.14), "WH": (0.82, 0.82, 0.79),
}  # fmt: skip

PLASTIC = (
    "finish{ambient 0 diffuse .75 specular .35 roughness .012 reflection{.01 .06 fresnel on} conserve_energy} "
    "interior{ior 1.45}"
)
METAL = (
    "texture{pigment{rgb <.72,.70,.66>} finish{ambient 0 diffuse .25 specular .9 roughness .03 metallic "
    "reflection{.35 metallic} brilliance 2} normal{bumps .05 scale .25}}"
)
SOLDER = (
    "texture{pigment{rgb <.66,.66,.68>} finish{ambient 0 diffuse .35 specular .8 roughness .02 metallic "
    "reflection{.25 metallic} brilliance 1.6} normal{bumps .2 scale .12}}"
)
STRANDS = (
    "texture{pigment{rgb <.72,.30,.13>} finish{ambient 0 diffuse .5 specular .6 roughness .04 metallic "
    "reflection{.12 metallic}}}"
)
SLEEVE = (
    "pigment{rgb <.016,.017,.02>} finish{ambient 0 diffuse .7 specular .5 roughness .02 "
    "reflection{.01 .05 fresnel on} conserve_energy} interior{ior 1.45} normal{bumps .12 scale .25}"
)
CLOTH = (
    "pigment{rgb .022} finish{ambient 0 diffuse .85 specular .12 roughness .12} "
    "normal{average normal_map{[1 gradient x,.5 triangle_wave scale .035][1 gradient z,.5 triangle_wave scale .035]"
    "[1 bumps .5 scale .3]}}"
)
VINYL = "pigment{rgb .014} finish{ambient 0 diffuse .7 specular .45 roughness .03} normal{bumps .25 scale .35}"


def v(point: Point) -> str:
    return "<" + ",".join(f"{value:.4f}" for value in point) + ">"


def heading(degrees: float) -> Vector:
    """Unit vector on the bench; 0 to the right, 90 away from the viewer."""
    return np.array([math.cos(math.radians(degrees)), 0.0, math.sin(math.radians(degrees))])


def curve(points: Points, steps: int = 9) -> Vector:
    """Points along a centripetal Catmull-Rom spline; it passes through every point given, and makes no loops."""
    given = [np.array(point, float) for point in points]
    if len(given) == 2:
        given = [given[0], (given[0] + given[1]) / 2, given[1]]
    ends = [2 * given[0] - given[1], *given, 2 * given[-1] - given[-2]]
    out = []
    for a, b, c, d in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        ta = 0.0
        tb, step_bc, step_cd = (math.sqrt(float(np.linalg.norm(q - p))) for p, q in ((a, b), (b, c), (c, d)))
        tc, td = tb + step_bc, tb + step_bc + step_cd
        for t in tb + (tc - tb) * np.arange(steps) / steps:
            ab, bc, cd = (
                ((high - t) * p + (t - low) * q) / (high - low)
                for p, q, low, high in ((a, b, ta, tb), (b, c, tb, tc), (c, d, tc, td))
            )
            left, right = ((tc - t) * ab + (t - ta) * bc) / (tc - ta), ((td - t) * bc + (t - tb) * cd) / (td - tb)
            out.append(((tc - t) * left + (t - tb) * right) / (tc - tb))
    return np.array([*out, given[-1]])


def tube(path: Vector, radius: float | Point, look: str) -> str:
    """A round body along sampled points."""
    radii = np.broadcast_to(np.asarray(radius, float), len(path))
    spheres = "".join(f"sphere{{{v(p)},{r:.4f}}}" for p, r in zip(path, radii, strict=True))
    cones = "".join(
        f"cone{{{v(p)},{a:.4f},{v(q)},{b:.4f} open}}"
        for p, q, a, b in zip(path, path[1:], radii, radii[1:], strict=False)
        if np.linalg.norm(q - p) > 1e-4
    )
    return f"union{{{spheres}{cones} {look}}}\n"


def side(path: Vector, turn: Callable[[float], float]) -> Vector:
    """A unit vector across the path at each point: up, turned about the path by `turn` of the length run, radians."""
    tangents = np.gradient(path, axis=0)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    run = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))])
    out = []
    for tangent, length in zip(tangents, run, strict=True):
        across = np.cross(tangent, [0, 1, 0])
        across /= np.linalg.norm(across)
        over = np.cross(across, tangent)
        out.append(math.cos(turn(length)) * over + math.sin(turn(length)) * across)
    return np.array(out)


def wire(points: Points, colour: str, radius: float = WIRE, phase: float = 0.0) -> str:
    """An insulated wire, `base` or `base/stripe`. The stripe wanders about the side that faces the viewer."""
    base, _, stripe = colour.partition("/")
    path = curve(points)
    text = tube(path, radius, f"pigment{{rgb {v(INSULATION[base])}}} {PLASTIC} normal{{bumps .05 scale .08}}")
    if stripe:
        line = path + 0.76 * radius * side(path, lambda run: -0.25 + 0.55 * math.sin(0.42 * run + phase))
        text += tube(line, 0.33 * radius, f"pigment{{rgb {v(INSULATION[stripe])}}} {PLASTIC}")
    return text


def strands(path: Vector, twist: float = 5.0, spread: float = 0.0) -> str:
    """Bare stranded copper along a path: seven strands that wind about it, and part towards the end by `spread`."""
    text = tube(path, 0.035, STRANDS)
    for k in range(6):
        around = side(path, lambda run, k=k: twist * run + k * math.pi / 3)  # type: ignore[misc]
        open_by = 0.052 + spread * np.linspace(0, 1, len(path))[:, None] ** 2
        text += tube(path + open_by * around, 0.033, STRANDS)
    return text


def lap(centre: Point, degrees: float, overlap: float = 1.0) -> tuple[str, Vector, Vector]:
    """A bare soldered lap joint; also the two points where the insulation of the left and right wire ends."""
    c, t = np.array(centre, float), heading(degrees)
    off = heading(degrees + 90) * 0.075
    ends = []
    text = ""
    for way, shift in ((-1, off), (1, -off)):
        far, near = c - way * t * overlap / 2 + shift, c + way * t * (overlap / 2 + 0.28) + shift
        ends.append(near)
        text += strands(curve([near, near - way * t * 0.34]))
        stations = np.linspace(-1, 1, 15)
        body = np.array([c + t * s * overlap / 2 + shift for s in stations])
        text += tube(body, [0.100 + 0.006 * math.cos(5 * s + way) for s in stations], SOLDER)
        text += tube(curve([far, far - way * t * 0.12]), np.linspace(0.1, 0.05, 19), SOLDER)
    text += tube(np.array([c + [0, 0.012, 0] + t * s * overlap / 2 for s in np.linspace(-0.9, 0.9, 9)]), 0.088, SOLDER)
    return text, ends[0], ends[1]


def sleeve(centre: Point, degrees: float, length: float = 3.4, hump: float = 0.245) -> str:
    """A recovered adhesive sleeve: tight on the wire at both ends, fuller over the joint, a bead squeezed out."""
    c, t = np.array(centre, float), heading(degrees)
    profile = [(-1, 0.163), (-0.9, 0.172), (-0.5, 0.185), (-0.3, hump), (0.3, hump + 0.006), (0.5, 0.188)]
    profile += [(0.9, 0.172), (1, 0.163)]
    sampled = curve([[*(c + t * s * length / 2), radius] for s, radius in profile], 7)
    text = tube(sampled[:, :3], sampled[:, 3].tolist(), SLEEVE)
    for way in (-1, 1):
        text += tube(
            np.array([c + way * t * (length / 2 + d) for d in (0, 0.05, 0.11)]),
            [0.172, 0.168, 0.138],
            f"pigment{{rgb <.20,.13,.05>}} {PLASTIC}",
        )
    return text


def unshrunk(centre: Point, degrees: float, length: float = 3.6) -> str:
    """A sleeve slid along the wire, still to be heated: wide, dull, open at both ends."""
    c, t = np.array(centre, float), heading(degrees) * length / 2
    return (
        f"difference{{cylinder{{{v(c - t)},{v(c + t)},.30}} cylinder{{{v(c - 1.02 * t)},{v(c + 1.02 * t)},.245}} "
        "pigment{rgb .03} finish{ambient 0 diffuse .8 specular .2 roughness .05} normal{bumps .08 scale .3}}\n"
    )


def taped(points: Points, radius: float = 0.5, pitch: float = 1.0, look: str = CLOTH) -> str:
    """A bundle under half-lapped tape: each turn a cone, cut off slantwise where the next one shows."""
    path = curve(points, 24)
    run = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))])
    text = tube(path, radius * 0.95, look)
    for start in np.arange(0, run[-1] - 0.4 * pitch, pitch):
        here, there = (
            np.array([np.interp(at, run, path[:, axis]) for axis in range(3)])
            for at in (start, min(start + pitch, run[-1]))
        )
        t = there - here
        t /= np.linalg.norm(t)
        cut = t + 0.55 * np.cross(t, [0, 1, 0])
        cut /= np.linalg.norm(cut)
        text += (
            f"intersection{{cone{{{v(here - t * 0.45 * pitch)},{radius * 0.935:.4f},{v(there + t * 0.5 * pitch)},"
            f"{radius * 1.055:.4f}}} plane{{{v(cut)},{float(cut @ there):.4f}}} {look}}}\n"
        )
    return text


def ring_terminal(hole: Point, degrees: float, colour: str, tail: Points, bore: float = 0.31) -> str:
    """A crimped ring terminal, sleeve over its barrel, and its wire; `degrees` is the way from hole to wire."""
    x, y, z = hole
    text = f"""union{{
      difference{{union{{cylinder{{0,y*.09,.74}} box{{<0,0,-.30>,<1.1,.09,.30>}}}} cylinder{{-y,y,{bore}}}}}
      cone{{<.95,.07,0>,.10,<1.25,.16,0>,.21}} cylinder{{<1.15,.16,0>,<1.55,.16,0>,.21}}
      {METAL} rotate y*{-degrees} translate {v(hole)}}}\n"""
    d = heading(degrees)
    base = np.array([x, y + 0.16, z])
    radii = ([1.32, 0.235], [1.5, 0.25], [2.1, 0.245], [2.3, 0.20], [2.7, 0.18], [2.95, 0.17])
    body = curve([[*(base + d * at), r] for at, r in radii], 6)
    text += tube(body[:, :3], body[:, 3].tolist(), SLEEVE)
    return text + wire([base + d * 2.3, base + d * 3.2, *tail], colour, 0.155)


def nut(at: Point, turn: float, across: float = 0.54, high: float = 0.46) -> str:
    corners = ",".join(
        f"<{across * math.cos(k * math.pi / 3):.3f},{across * math.sin(k * math.pi / 3):.3f}>" for k in range(7)
    )
    return (
        f"intersection{{prism{{0,{high},7,{corners}}} cone{{-y*.2,{across * 1.5},y*{high + 0.25},{across * 0.8}}} "
        f"{METAL} rotate y*{turn} translate {v(at)}}}\n"
    )


def stud(at: Point, high: float) -> str:
    x, y, z = at
    return (
        f"cylinder{{{v(at)},{v((x, y + high, z))},.295 "
        "texture{pigment{rgb <.62,.56,.38>} finish{ambient 0 diffuse .35 specular .8 roughness .04 "
        "metallic reflection{.2 metallic}} normal{gradient y,1.2 triangle_wave scale .1}}}\n"
        f"cone{{{v((x, y + high, z))},.28,{v((x, y + high + 0.06, z))},.2 {METAL}}}\n"
    )


def washer(at: Point, radius: float = 0.6) -> str:
    return f"difference{{cylinder{{0,y*.08,{radius}}} cylinder{{-y,y,.3}} {METAL} translate {v(at)}}}\n"


def box(low: Point, high: Point, round_by: float, look: str = "") -> str:
    """A box with rounded edges and corners."""
    inner_low, inner_high = np.array(low, float) + round_by, np.array(high, float) - round_by
    text = ""
    for axis in range(3):
        grow = np.eye(3)[axis] * round_by
        text += f"box{{{v(inner_low - grow)},{v(inner_high + grow)}}}"
        for a in (0, 1):
            for b in (0, 1):
                start = np.where(np.arange(3) == (axis + 1) % 3, (inner_low, inner_high)[a], inner_low)
                start = np.where(np.arange(3) == (axis + 2) % 3, (inner_low, inner_high)[b], start)
                end = np.where(np.arange(3) == axis, inner_high, start)
                text += f"cylinder{{{v(start)},{v(end)},{round_by}}}"
                text += "".join(f"sphere{{{v(corner)},{round_by}}}" for corner in (start, end))
    return f"union{{{text} {look}}}\n"


def rule(at: Point, degrees: float) -> str:
    """A steel rule, 30 cm, zero at `at`; the picture on it is drawn by render.py."""
    return f"""box{{<-.5,0,-1.5>,<30.5,.08,1.5> texture{{pigment{{image_map{{png "rule.png" gamma srgb interpolate 2}}
      rotate x*90 scale <31,1,3> translate <-.5,0,-1.5>}} finish{{ambient 0 diffuse .66 specular .2 roughness .06
      reflection{{.03}}}} normal{{bumps .05 scale <2,.02,.02>}}}} rotate y*{-degrees} translate {v(at)}}}\n"""


def curl(at: Point, turn: float) -> str:
    """A strip of old tape, curled up and standing on its edge."""
    return (
        "intersection{difference{cylinder{-y*.03,y*.9,.8} cylinder{-y,y*2,.775}} "
        f"box{{<-2,-.1,-2>,<.4,1,2>}} {VINYL} rotate y*{turn} translate {v(at)}}}\n"
    )


def litter(seed: int, around: Point) -> str:
    """A few cut-off strands and a bit of insulation, as lie on any bench."""
    r = random.Random(seed)
    text = ""
    for _ in range(5):
        p = np.array([around[0] + r.uniform(-2.5, 2.5), 0.03, around[1] + r.uniform(-1, 1)])
        d = heading(r.uniform(0, 360))
        text += tube(curve([p, p + d * 0.3 + heading(r.uniform(0, 360)) * 0.1, p + d * 0.7]), 0.02, STRANDS)
    return text
