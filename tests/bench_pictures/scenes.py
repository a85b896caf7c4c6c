"""The bench pictures of the demo jobs: what lies where, from where it is seen, and which features can be marked."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from parts import (
    METAL,
    PLASTIC,
    STRANDS,
    VINYL,
    Point,
    Points,
    Vector,
    box,
    curl,
    curve,
    heading,
    lap,
    litter,
    nut,
    ring_terminal,
    rule,
    side,
    sleeve,
    strands,
    stud,
    taped,
    tube,
    unshrunk,
    v,
    washer,
    wire,
)  # fmt: skip


@dataclass
class Scene:
    """A view of things. `features`: name, point in the scene (cm), radius of the ring to draw about it (cm)."""

    eye: Point
    aim: Point
    angle: float  # horizontal angle of view, degrees
    ground: str  # ply, mat or paint
    portrait: bool = False
    turned: bool = False  # stored sideways, with the orientation tag to say so
    things: list[str] = field(default_factory=list)
    features: list[tuple[str, tuple[float, ...], float]] = field(default_factory=list)

    def add(self, *texts: str) -> None:
        self.things += texts

    def mark(self, name: str, point: Point, radius: float) -> None:
        self.features.append((name, tuple(map(float, point)), radius))


def before_nose() -> Scene:
    s = Scene((0.5, 24, -17), (0.0, 0, -0.2), 37, "ply")
    s.add(taped([(-22, 0.55, 1.6), (-15, 0.55, 0.6), (-10, 0.55, 0.9), (-7.2, 0.55, 1)], 0.55))
    s.add(taped([(7.4, 0.5, 1), (10, 0.5, 1.1), (15, 0.5, 2), (22, 0.5, 2.2)], 0.5))
    s.add(taped([(5.6, 0.35, -1.1), (8, 0.35, -2.6), (12, 0.35, -3.2), (20, 0.35, -3.4)], 0.3, 0.8))
    bows = {"GN": 4.3, "VT/WH": 3.1, "GN/RD": 2.0, "GY/WH": 0.9, "BN": -0.4, "BU/WH": -1.8}
    for k, (colour, bow) in enumerate(bows.items()):
        turn = k * math.pi / 3
        y, z = 0.55 + 0.27 * math.sin(turn), 1 + 0.27 * math.cos(turn)
        out = (
            [(7.6, y, z), (9, y, z)]
            if k < 4
            else [(5.2, 0.35, -0.85 + 0.2 * (4 - k)), (6.5, 0.35, -1.7 + 0.15 * (4 - k))]
        )
        ways = [(-9, y, z), (-7, y, z), (-4.2, 0.3 + 0.05 * k, 1 + 0.55 * (bow - 1)), (0.3, 0.15, bow)]
        near = [(3.8, 0.25, 1 + 0.6 * (bow - 1))] if k < 4 else [(3, 0.2, bow + 0.35)]
        s.add(wire([*ways, *near, *out], colour, phase=k))
        s.mark(colour, (0.3, 0.15, bow), 0.5)
    s.add(rule((-13.5, 0.02, -6.2), 0.8))
    s.add(curl((-8.6, 0, -2.4), 60))
    s.mark("takeout", (6.2, 0.4, -0.2), 1.6)
    s.mark("trunk tape ends", (-7.1, 0.5, 1), 0.9)
    return s


def joint_bare() -> Scene:
    s = Scene((1.2, 11, -9.5), (0.2, 0, 0.1), 42, "ply")
    text, left, right = lap((0, 0.16, 0.3), -4)
    s.add(text)
    d = heading(-4)
    s.add(wire([(-14, 0.5, 2.4), (-8, 0.2, 1.5), (-4, 0.14, 0.7), left - d * 1.2, left], "VT/WH"))
    s.add(wire([right, right + d * 1.2, (6, 0.3, -0.2), (10, 0.2, 0.5), (15, 0.2, 0.8)], "BU"))
    s.add(unshrunk((4.6, 0.31, -0.08), -3))
    s.add(wire([(-14, 0.5, 3.3), (-7, 0.3, 3.0), (-3.2, 0.14, 2.7)], "GN/RD", phase=2))
    s.add(strands(curve([(-3.3, 0.14, 2.7), (-2.3, 0.12, 2.6)]), spread=0.03))
    s.add(wire([(-14, 0.5, 4.3), (-6, 0.3, 4.4), (0.5, 0.14, 4.0)], "GY/WH", phase=1))
    s.add(strands(curve([(0.4, 0.14, 4.0), (1.4, 0.12, 3.92)]), spread=0.03))
    s.add(wire([(15, 0.2, 3.0), (8, 0.14, 2.6), (3.4, 0.14, 2.3)], "RD"))
    s.add(strands(curve([(3.5, 0.14, 2.3), (2.5, 0.12, 2.3)]), spread=0.03))
    s.add(rule((-8, 0.02, -3.4), 1.2), litter(3, (-3, -1)))
    s.mark("joint VT/WH to BU", (0, 0.16, 0.3), 0.95)
    s.mark("sleeve ready", (4.6, 0.31, -0.08), 1.2)
    s.mark("GN/RD stripped", (-2.8, 0.14, 2.65), 0.7)
    return s


def joint_sealed() -> Scene:
    s = Scene((1.6, 19, -14), (1.3, 0, -0.3), 41, "mat")
    pairs = [("VT/WH", "BU", -2.6), ("GN/RD", "RD", 0.5), ("GY/WH", "GY/WH", 3.6), ("BN", "BK", 6.7)]
    for k, (left, right, x) in enumerate(pairs):
        z = 3.2 - 1.15 * k
        c, d = np.array([x, 0.2, z]), heading(-1.5 + k)
        s.add(wire([(-18, 0.5, z * 0.35 + 1.5), (-12, 0.3, z * 0.6 + 0.7), c - d * 2.4, c - d * 1.5, c], left, phase=k))
        s.add(wire([c, c + d * 1.5, c + d * 2.4, (12, 0.3, z * 0.6 + 0.5), (18, 0.4, z * 0.4 + 0.9)], right, phase=k))
        s.add(sleeve(c, -1.5 + k))
        s.mark(f"joint {left} to {right}", c, 0.9)
    s.add(rule((-13, 0.02, -4.6), -0.8))
    return s


def lug(
    wires: Sequence[tuple[str, float, Points]], eye: Point, aim: Point,
    angle: float, portrait: bool, ground: str,
) -> Scene:  # fmt: skip
    """Rings stacked on one stud, base first."""
    s = Scene(eye, aim, angle, ground, portrait)
    s.add(box((-2.6, 0, -2.2), (2.6, 0.3, 2.2), 0.08, "texture{plate}"))
    for x, z in ((-2.05, 1.65), (2.05, -1.65)):  # spot welds
        s.add(f"sphere{{0,1 scale <.3,.05,.3> translate <{x},.3,{z}> texture{{plate}}}}\n")
    s.add(stud((0, 0.3, 0), 1.75))
    y = 0.3
    for k, (colour, degrees, tail) in enumerate(wires):
        s.add(ring_terminal((0, y, 0), degrees, colour, tail))
        s.mark(f"ring {k + 1} {colour}", np.array([0, y + 0.16, 0]) + heading(degrees) * 1.9, 0.6)
        y += 0.095
    s.add(washer((0, y, 0)), nut((0, y + 0.08, 0), 17))
    s.mark("stud", (0, y + 0.4, 0), 1.0)
    return s


def front_lug() -> Scene:
    s = lug(
        [
            ("BK", 165, [(-5.2, 0.6, 0.9), (-9, 0.8, 0.6), (-15, 0.6, 2.5)]),
            ("BN", 200, [(-5.0, 0.7, -1.7), (-9, 0.5, -2.2), (-15, 0.4, -1.4)]),
            ("BN", 130, [(-4.0, 0.8, 3.7), (-8, 0.9, 5.2), (-14, 0.7, 6), (-20, 0.6, 6)]),
        ],
        (3.4, 10.5, -11), (-1.9, 0.2, 0.5), 42, False, "paint",
    )  # fmt: skip
    s.add(rule((-9.5, 0.02, -5.4), 2))
    return s


def rear_lug() -> Scene:
    return lug(
        [
            ("BK", 95, [(-0.6, 0.7, 5.4), (-1.5, 0.8, 9), (-3.4, 0.7, 15), (-5, 0.7, 22)]),
            ("BN", 62, [(2.2, 0.8, 5.0), (1.9, 0.9, 9), (0.2, 0.8, 15), (-2, 0.8, 22)]),
            ("BN", 128, [(-3.2, 0.8, 4.4), (-3.6, 0.9, 9), (-4.8, 0.8, 15), (-6, 0.8, 22)]),
            ("BK", 30, [(4.4, 0.9, 3.2), (4.6, 0.9, 7), (3.2, 0.8, 14), (1, 0.8, 22)]),
        ],
        (1.8, 14, -9.5), (0.1, 0, 1.7), 36, True, "paint",
    )  # fmt: skip


# Bodies of blade fuses, colour by rating (common practice, from memory; only how they look): 10 A red, 15 A blue,
# 20 A yellow, 30 A green, 5 A tan, 25 A clear. Linear light.
FUSES = {
    10: (0.7, 0.03, 0.03), 15: (0.04, 0.22, 0.75), 20: (0.85, 0.62, 0.03), 30: (0.05, 0.45, 0.15), 5: (0.6, 0.36, 0.16),
    25: (0.75, 0.75, 0.75),
}  # fmt: skip


def fuse_box() -> Scene:
    s = Scene((-2.2, 13, -9.0), (0.5, 0.6, 0.0), 46, "paint")
    s.add(
        f"difference{{union{{{box((-5.6, 0, -4.0), (5.6, 1.6, 4.0), 0.3)}"
        f"{box((-6.6, 0, -1.2), (6.6, 0.5, 1.2), 0.15)}}} "
        f"{box((-5.2, 0.75, -3.6), (5.2, 3, 3.6), 0.15)} {DARK}}}\n"
    )
    rows = [[10, 15, 10, 20, None, 15, 30], [5, 10, None, 15, 20, 10, 10], [20, 25, 15, 10, 5, None, 30]]
    for row, ratings in enumerate(rows):
        for column, rating in enumerate(ratings):
            x, z = -4.5 + column * 1.0, 2.3 - row * 2.2
            s.add(box((x - 0.33, 0.6, z - 0.68), (x + 0.33, 1.05, z + 0.68), 0.05, DARK))
            s.mark(f"row {row + 1} place {column + 1}", (x, 1.5 if rating else 1.05, z), 0.6)
            if rating is None:
                for way in (-1, 1):
                    s.add(
                        f"box{{<-.06,1,-.17>,<.06,1.06,.17> pigment{{rgb 0}} translate {v((x, 0, z + way * 0.38))}}}\n"
                    )
                continue
            body = f"pigment{{rgb {v(FUSES[rating])}}} {PLASTIC}"
            s.add(box((x - 0.17, 1.05, z - 0.54), (x + 0.17, 1.55, z + 0.54), 0.06, body))
            s.add(box((x - 0.2, 1.5, z - 0.6), (x + 0.2, 1.9, z + 0.6), 0.07, body))
            for way in (-1, 1):
                s.add(f"box{{<-.05,1.8,-.12>,<.05,1.905,.12> {METAL} translate {v((x, 0, z + way * 0.36))}}}\n")
    for k, z in enumerate((1.75, -1.35)):
        s.add(
            box(
                (2.6, 0.7, z - 1.3),
                (4.9, 2.7, z + 1.3),
                0.12,
                f"pigment{{rgb .03}} {PLASTIC} normal{{granite .02 scale .2}}",
            )
        )
        s.mark(f"relay {k + 1}", (3.75, 2.4, z), 1.7)
    s.add(wire([(-2, 0.3, 4.2), (-2.4, 0.5, 6), (-5, 0.5, 9), (-9, 0.5, 12)], "RD", 0.3))
    s.add(taped([(1.5, 0.7, 4.0), (1.6, 0.7, 6), (3.5, 0.7, 9), (8, 0.7, 13)], 0.7))
    return s


DARK = (
    "pigment{rgb <.028,.030,.033>} finish{ambient 0 diffuse .75 specular .25 roughness .04} "
    "normal{granite .03 scale .3}"
)
SEAL = f"pigment{{rgb <.62,.20,.03>}} {PLASTIC}"


def lamp_plug() -> Scene:
    s = Scene((-8.5, 9.0, -8.0), (-0.5, 0.5, 0.2), 40, "ply")
    ways = [1.7, 0.85, 0.0, -0.85, -1.7]
    holes = "".join(f"cylinder{{<-.2,.85,{z}>,<.5,.85,{z}>,.27}} " for z in ways)
    s.add(
        f"difference{{union{{{box((0, 0.05, -2.4), (3.9, 1.65, 2.4), 0.14)}"
        f"{box((0.7, 1.5, -0.65), (3.6, 2.0, 0.65), 0.1)}{box((3.0, 0.02, -2.55), (3.45, 1.75, 2.55), 0.06)}"
        f"{box((0.3, 0.4, -2.6), (2.2, 0.65, 2.6), 0.05)}}} {holes} box{{<1.2,1.9,-.4>,<2.9,2.3,.4>}} {DARK}}}\n"
    )
    colours = ["VT/WH", "GN/RD", "GY/WH", "BN", None]
    for k, (z, colour) in enumerate(zip(ways, colours, strict=True)):
        s.add(f"torus{{.19,.075 rotate z*90 translate <.05,.85,{z}> {SEAL}}}\n")
        s.add(f"torus{{.19,.075 rotate z*90 translate <.2,.85,{z}> {SEAL}}}\n")
        if colour is None:
            s.add(f"cylinder{{<-.28,.85,{z}>,<.5,.85,{z}>,.19 {SEAL}}}\n")
            s.mark("cavity 5 blank", (-0.2, 0.85, z), 0.45)
        else:
            bend = [(-5.5, 0.3, z * 0.55 + 0.3), (-10, 0.3, z * 0.3 + 1.0), (-17, 0.4, z * 0.25 + 2.2)]
            s.add(wire([(0.4, 0.85, z), (-0.6, 0.85, z), (-2.2, 0.72, z * 0.93), *bend], colour, 0.145, phase=k))
            s.mark(f"cavity {k + 1} {colour}", (-0.45, 0.85, z), 0.4)
    s.add(rule((-9.5, 0.02, -4.3), -4))
    s.mark("plug", (1.9, 1.9, 0), 1.2)
    return s


def cap() -> Scene:
    s = Scene((0.5, 15, -12), (0.3, 0, 0.2), 42, "mat")
    s.add(taped([(-18, 0.6, 3.4), (-10, 0.6, 2.7), (-3, 0.6, 2.3), (4, 0.6, 2.4), (18, 0.6, 3.6)], 0.6))
    s.add(
        wire(
            [
                (-5.6, 0.7, 2.3),
                (-4.4, 0.6, 1.5),
                (-2.4, 0.25, 0.5),
                (0.2, 0.2, -0.48),
                (0.9, 0.22, -0.62),
                (2.6, 0.22, -0.824),
            ],
            "BN",
            0.15,
        )
    )
    profile = [(0.9, 0.185), (1.1, 0.195), (2.2, 0.21), (3.2, 0.215), (3.9, 0.19), (4.4, 0.15)]
    body = curve([[x, 0.22, -0.62 - 0.12 * (x - 0.9), r] for x, r in profile], 7)
    s.add(
        tube(
            body[:, :3], body[:, 3].tolist(), "pigment{rgb <.016,.017,.02>} " + PLASTIC + " normal{bumps .1 scale .25}"
        )
    )
    s.add(taped([(-7.0, 0.6, 2.52), (-5.6, 0.6, 2.42), (-4.4, 0.6, 2.36)], 0.72, 0.7, VINYL))
    s.add(rule((-11, 0.02, -4.2), 0.6))
    s.mark("capped stub BN", (2.7, 0.22, -0.85), 2.0)
    s.mark("stub leaves trunk", (-4.9, 0.65, 1.8), 0.9)
    return s


def taped_run() -> Scene:
    s = Scene((1.0, 25, -13), (0.2, 0, 1.2), 34, "ply", portrait=True, turned=True)
    s.add(taped([(-3.4, 0.62, -14), (-2.2, 0.62, -6), (-1.6, 0.62, 0), (-1.8, 0.62, 7), (-3.6, 0.62, 20)], 0.62))
    s.add(taped([(-1.7, 0.5, 1.0), (-0.4, 0.45, 3.4), (2.2, 0.42, 6.4), (5.4, 0.4, 9.4), (12, 0.4, 14)], 0.36, 0.8))
    s.add(taped([(-1.72, 0.62, -0.5), (-1.6, 0.62, 0.7), (-1.62, 0.62, 2.0)], 0.74, 0.7))
    s.add(rule((2.9, 0.02, -10), 88.5))
    s.mark("branch", (-1.45, 0.6, 1.4), 1.2)
    s.mark("tape begins again", (-2.1, 0.62, -5.5), 0.9)
    return s


def shorten() -> Scene:
    s = Scene((-0.8, 12, -9.5), (0.3, 0, 0.0), 42, "mat")
    text, left, right = lap((0.4, 0.16, 0.5), 6, 1.2)
    d = heading(6)
    s.add(text)
    s.add(wire([(-15, 0.4, 0.2), (-9, 0.2, -0.6), (-4, 0.14, 0.0), left - d * 1.2, left], "GY/RD", phase=1))
    s.add(wire([right, right + d * 1.2, (5, 0.2, 1.1), (9, 0.2, 2.1), (15, 0.3, 2.2)], "GY/RD", phase=2))
    s.add(unshrunk((-5.0, 0.31, -0.17), 8))
    # the piece taken out
    s.add(wire([(-4.6, 0.13, 3.3), (-2, 0.13, 3.9), (1.5, 0.13, 3.4), (4.0, 0.13, 3.6)], "GY/RD", phase=3))
    for x, z, way in ((-4.6, 3.3, -1), (4.0, 3.6, 1)):
        s.add(f"cylinder{{<{x},.13,{z}>,<{x + way * 0.03},.13,{z}>,.08 {STRANDS}}}\n")
    s.add(rule((-8.6, 0.02, -3.4), -1), litter(9, (2, -1)))
    s.mark("joint GY/RD", (0.4, 0.16, 0.5), 1.05)
    s.mark("piece taken out", (-0.3, 0.13, 3.6), 1.4)
    return s


def trailer_plug() -> Scene:
    s = Scene((-6.6, 11.5, -12), (-2.4, 1.2, 0.4), 47, "ply")
    brass = METAL.replace("<.72,.70,.66>", "<.70,.50,.18>")
    s.add(
        f"union{{difference{{cylinder{{<0,2.5,0>,<3.4,2.5,0>,2.5}} cylinder{{<-.1,2.5,0>,<.9,2.5,0>,2.2}}}} "
        f"{box((3.0, 0.0, -2.9), (3.5, 5.2, 2.9), 0.2)} {DARK} rotate z*-22}}\n"
    )
    colours = ["YE", "BU", "WH", "GN", "BN", "RD", "BK"]
    lean = math.radians(-22)

    def on_face(x: float, across: float, up: float) -> Vector:
        return np.array([x * math.cos(lean) - up * math.sin(lean), x * math.sin(lean) + up * math.cos(lean), across])

    for k, colour in enumerate(colours):
        turn = math.radians(90 + k * 60)
        across, up = (0.0, 2.5) if k == 6 else (1.45 * math.cos(turn), 2.5 + 1.45 * math.sin(turn))
        screw = on_face(0.86, across, up)
        s.add(f"cylinder{{{v(on_face(0.9, across, up))},{v(on_face(0.35, across, up))},.34 {brass}}}\n")
        s.add(tube(curve([on_face(0.5, across, up), on_face(0.15, across, up)]), 0.16, brass))
        end = on_face(0.25, across, up)
        away = on_face(-1.3, across * 1.05, up)
        s.add(
            wire(
                [end, away, (-4.2, 0.75 + 0.3 * up, 0.3 + across * 0.75), (-7.2, 0.45 + 0.1 * up, 0.9 + across * 0.22),
                 (-10, 0.35 + 0.1 * up, 1.2 + across * 0.15)], colour, 0.17,
            )
        )  # fmt: skip
        s.mark(f"terminal {colour}", (screw + end) / 2, 0.5)
    s.add(tube(curve([(-8.0, 0.65, 1.0), (-11, 0.65, 1.4), (-15, 0.65, 2.4), (-22, 0.65, 3)]), 0.62, DARK))
    s.mark("cable jacket ends", (-8.2, 0.7, 1.0), 0.9)
    return s


def stubs() -> Scene:
    s = Scene((0.2, 15, -11.5), (0.2, 0, -0.4), 43, "mat")
    s.add(taped([(-18, 0.6, 5.0), (-10, 0.6, 4.1), (-3, 0.6, 3.8), (4, 0.6, 3.9), (18, 0.6, 5.0)], 0.6))
    # under tape
    s.add(wire([(-7.6, 0.6, 3.9), (-6.8, 0.5, 2.6), (-5.8, 0.2, 0.8), (-5.2, 0.2, -0.8)], "GN/RD", 0.15))
    s.add(taped([(-5.5, 0.26, -0.1), (-5.2, 0.26, -0.9), (-5.0, 0.26, -2.1)], 0.27, 0.42, VINYL))
    s.add("sphere{<-4.99,.26,-2.1>,.25 " + VINYL + "}\n")
    s.mark("stub under tape", (-5.2, 0.26, -1.1), 1.3)
    # cut and left
    s.add(wire([(-1.2, 0.6, 3.7), (-0.7, 0.5, 2.4), (-0.2, 0.2, 0.8), (0.4, 0.14, -0.9)], "YE", 0.15))
    s.add(strands(curve([(0.37, 0.14, -0.8), (0.55, 0.14, -1.35), (0.62, 0.12, -1.75)]), spread=0.07))
    s.mark("bare stub", (0.55, 0.14, -1.3), 0.8)
    # crimp cap
    s.add(wire([(5.0, 0.6, 3.8), (5.4, 0.5, 2.6), (5.9, 0.25, 0.9), (5.8, 0.25, -0.3)], "BU/WH", 0.15))
    cream = f"pigment{{rgb <.72,.66,.50>}} {PLASTIC}"
    d = heading(-95)
    c = np.array([5.8, 0.28, -0.3])
    shape = [(0, 0.29), (0.1, 0.30), (0.7, 0.30), (0.85, 0.22), (1.05, 0.2), (1.25, 0.23), (1.6, 0.24), (1.75, 0.17)]
    s.add(tube(np.array([c + d * at for at, _ in shape]), [r for _, r in shape], cream))
    s.mark("crimp cap", c + d * 0.9, 1.1)
    s.add(rule((-11, 0.02, -5.6), 0.8), litter(4, (2.5, -2.5)))
    return s


def twisted(s: Scene, left: str, right: str, centre: Point, degrees: float, name: str) -> None:
    """Two wires twisted together and taped over; the tape has crept back and the copper shows."""
    c, d = np.array(centre, float), heading(degrees)
    s.add(wire([c - d * 12 + [0, 0.2, 0.9], c - d * 6 + [0, 0.1, 0.4], c - d * 2, c - d * 1.2], left, 0.15))
    s.add(wire([c + d * 1.2, c + d * 2, c + d * 6 + [0, 0.1, 0.5], c + d * 12 + [0, 0.2, 0.7]], right, 0.15, 1))
    path = curve([c - d * 1.3, c, c + d * 1.3], 20)
    for phase in (0.0, math.pi):
        around = side_by(path, phase)
        s.add(strands(path + 0.085 * around, 7))
    s.add(taped([c - d * 1.7, c - d * 0.9, c - d * 0.05], 0.27, 0.42, VINYL))
    s.add(taped([c + d * 0.95, c + d * 1.35, c + d * 1.8], 0.22, 0.42, VINYL))
    s.mark(name, c + d * 0.1, 1.9)


def side_by(path: Vector, phase: float) -> Vector:
    return side(path, lambda run: 4.2 * run + phase)


def mixed() -> Scene:
    s = Scene((0.4, 13, -11), (0.0, 0, -0.1), 39, "ply")
    twisted(s, "VT", "RD", (-1.6, 0.26, 2.2), 3, "twist VT to RD")
    twisted(s, "BN", "BK", (1.4, 0.26, -0.4), -4, "twist BN to BK")
    s.add(curl((-5, 0, -1.2), 0))
    s.add(rule((-9.6, 0.02, -5.0), 1.0))
    return s


JOBS: dict[str, dict[str, Callable[[], Scene]]] = {
    "trail-truck": {
        "p01-before-nose": before_nose, "p02-joint-bare": joint_bare, "p03-joint-sealed": joint_sealed,
        "p04-front-lug": front_lug, "p05-plug-lamp": lamp_plug, "p06-cap": cap, "p07-rear-lug": rear_lug,
        "p08-taped": taped_run, "p09-fuse-box": fuse_box,
    },
    "flatbed": {"f01-shorten": shorten, "f02-trailer-plug": trailer_plug},
    "taken-over": {"t01-stubs": stubs, "t02-mixed": mixed},
}  # fmt: skip
