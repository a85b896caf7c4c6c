"""Render the demo jobs' bench pictures with POV-Ray; deterministic, one thread.

    render.py [--small] [name ...]     without names: all, and features.csv anew

Each picture goes to jobs/<job>/photos/<name>.jpg, 1600 x 1200 or 1200 x 1600. features.csv tells where the named
features lie: fractions of the upright picture, radius in fractions of its width, to place marks by.
`--small` renders a quarter of the size as PNG into the temporary folder and leaves the jobs alone.
"""

import csv
import math
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
from parts import Vector, v
from PIL import Image, ImageDraw, ImageFont
from scenes import JOBS, Scene

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
WORK = Path(tempfile.gettempdir()) / "bench_pictures"

GROUND = {
    "ply": """texture{pigment{wood turbulence <.06,.06,.3> octaves 4 scale <2.2,2.2,30> color_map{
      [0 rgb <.50,.36,.21>][.6 rgb <.46,.32,.18>][.85 rgb <.38,.25,.13>][1 rgb <.47,.33,.19>]}
      rotate y*90 rotate <2.5,2,0> translate <0,5,3>}
      finish{ambient 0 diffuse .75 specular .08 roughness .1} normal{bumps .12 scale <3,.1,.06>}}
      texture{pigment{wrinkles turbulence .7 scale <6,1,3> color_map{[0 rgbt <.10,.07,.04,.6>][.15 rgbt <.15,.10,.06,1>]
      [1 rgbt 1]}} finish{ambient 0 diffuse .7}}""",
    "mat": """texture{pigment{granite scale 3 color_map{[0 rgb <.23,.26,.27>][1 rgb <.28,.31,.32>]}}
      finish{ambient 0 diffuse .8 specular .06 roughness .15} normal{bumps .3 scale .05}}
      texture{pigment{wrinkles turbulence .8 scale <7,1,5> color_map{[0 rgbt <.55,.55,.52,.72>][.12 rgbt <.5,.5,.5,1>]
      [1 rgbt 1]}} finish{ambient 0 diffuse .8}}""",
    "paint": """texture{pigment{granite scale 8 turbulence .3 color_map{[0 rgb <.21,.26,.24>][.7 rgb <.24,.29,.27>]
      [1 rgb <.27,.31,.28>]}} finish{ambient 0 diffuse .72 specular .2 roughness .05 reflection{.02 .08 fresnel on}
      conserve_energy} normal{bumps .03 scale .5}}
      texture{pigment{bozo turbulence .7 scale 4 color_map{[0 rgbt <.22,.13,.06,.35>][.12 rgbt <.22,.15,.08,.85>]
      [.3 rgbt 1][1 rgbt 1]}} finish{ambient 0 diffuse .7}}""",
}


def rule_picture() -> None:
    """The face of a steel rule: millimetres along one edge, half centimetres along the other, figures between."""
    px = 100  # a centimetre
    wide, high = 31 * px, 3 * px
    image = Image.new("RGB", (wide, high), (186, 188, 190))
    draw = ImageDraw.Draw(image)
    font = ImageFont.load_default(62)
    for mm in range(301):
        x = px // 2 + mm * px // 10
        length = 100 if mm % 10 == 0 else 76 if mm % 5 == 0 else 50
        draw.line((x, 0, x, length), fill=(18, 18, 20), width=5)
        if mm % 5 == 0:
            draw.line((x, high, x, high - (74 if mm % 10 == 0 else 46)), fill=(18, 18, 20), width=5)
        if mm % 10 == 0:
            draw.text(
                (x + 8, 104), str(mm // 10), fill=(18, 18, 20), font=font, stroke_width=1, stroke_fill=(18, 18, 20)
            )
    brushed = np.random.default_rng(7).normal(0, 7, (high, 1, 1)) + np.random.default_rng(8).normal(
        0, 3, (high, wide, 1)
    )
    Image.fromarray(np.clip(np.asarray(image) + brushed, 0, 255).astype(np.uint8)).save(WORK / "rule.png")


def axes(scene: Scene) -> tuple[Vector, Vector, Vector]:
    """Right, up and forward of the camera; POV-Ray's axes are left-handed."""
    forward = np.array(scene.aim, float) - np.array(scene.eye, float)
    forward /= np.linalg.norm(forward)
    right = np.cross([0.0, 1.0, 0.0], forward)
    right /= np.linalg.norm(right)
    return right, np.cross(forward, right), forward


def project(scene: Scene, point: Vector, radius: float) -> tuple[float, float, float]:
    """Where a ball in the scene is seen: x and radius in fractions of the width, y of the height."""
    right, up, forward = axes(scene)
    ray = point - np.array(scene.eye, float)
    depth = float(ray @ forward)
    half = math.tan(math.radians(scene.angle) / 2)
    ratio = 4 / 3 if scene.portrait else 3 / 4  # height over width
    return (
        0.5 + float(ray @ right) / depth / (2 * half),
        0.5 - float(ray @ up) / depth / (2 * half * ratio),
        radius / depth / (2 * half),
    )


def render(name: str, scene: Scene, width: int, height: int) -> Image.Image:
    text = f"""#version 3.7;
global_settings{{assumed_gamma 1 radiosity{{pretrace_start .08 pretrace_end .02 count 60 nearest_count 6 error_bound .9
  recursion_limit 1 low_error_factor .6 gray_threshold .3 minimum_reuse .02 brightness 1}}}}
camera{{perspective location {v(scene.eye)} right x*{width / height:.5f} angle {scene.angle} look_at {v(scene.aim)}}}
light_source{{<-26,40,20> rgb <1.0,.95,.87>*1.25 area_light <14,0,0>,<0,0,10>,4,4 adaptive 0 jitter circular orient}}
light_source{{<30,45,-30> rgb <.6,.68,.82>*.4 area_light <16,0,0>,<0,0,16>,3,3 adaptive 0 jitter}}
sky_sphere{{pigment{{gradient y color_map{{[0 rgb .12][.5 rgb <.27,.28,.32>][.8 rgb <.9,.92,1>*.8][1 rgb .5]}}}}}}
#declare plate = texture{{pigment{{rgb <.55,.56,.58>}} finish{{ambient 0 diffuse .45 specular .5 roughness .06 metallic
  reflection .1}} normal{{bumps .07 scale <1.5,.03,.03>}}}}
plane{{y,0 {GROUND[scene.ground]} interior{{ior 1.5}}}}
{"".join(scene.things)}"""
    (WORK / f"{name}.pov").write_text(text)
    command = ["povray", f"{name}.pov", f"+O{name}.raw.png", f"+W{width}", f"+H{height}"]
    done = subprocess.run(
        [*command, "+A0.15", "+R2", "-D", "+WT1", "+Q11", "-GA"], cwd=WORK, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise SystemExit("\n".join(line for line in done.stderr.splitlines() if line.strip())[-900:])
    with Image.open(WORK / f"{name}.raw.png") as opened:
        return camera_look(np.asarray(opened.convert("RGB"), dtype=np.float64), name)


def camera_look(light: Vector, name: str) -> Image.Image:
    """Darker corners and sensor noise, as a hand-held camera gives them."""
    height, width = light.shape[:2]
    y, x = np.mgrid[0:height, 0:width]
    light = light * (1 - 0.2 * ((x / width - 0.5) ** 2 + (y / height - 0.5) ** 2) / 0.5)[..., None]
    noise = np.random.default_rng(sum(name.encode()))
    light = 255 * np.clip(light / 255 * 1.05, 0, 1) ** 0.95
    light += noise.normal(0, 1.6, (height, width, 1)) + noise.normal(0, 1.0, (height, width, 3))
    return Image.fromarray(np.clip(light, 0, 255).astype(np.uint8))


def main(arguments: list[str]) -> None:
    WORK.mkdir(exist_ok=True)
    rule_picture()
    small = "--small" in arguments
    wanted = {argument for argument in arguments if not argument.startswith("-")}
    rows = []
    for job, pictures in JOBS.items():
        for name, build in pictures.items():
            scene = build()
            for feature, point, radius in scene.features:
                placed = project(scene, np.array(point), radius)
                if not all(0.01 < value < 0.99 for value in placed[:2]):
                    raise SystemExit(f"{name}: {feature} is out of the picture at {placed}")
                rows.append([job, f"{name}.jpg", feature, *(f"{value:.4f}" for value in placed)])
            if wanted and name not in wanted:
                continue
            width, height = (1200, 1600) if scene.portrait else (1600, 1200)
            if small:
                render(name, scene, width // 2, height // 2).save(WORK / f"{name}.png")
                continue
            picture = render(name, scene, width, height)
            exif = Image.Exif()
            if scene.turned:
                picture = picture.transpose(Image.Transpose.ROTATE_90)
                exif[0x0112] = 6  # the 0th row is the visual right side
            folder = ROOT / "jobs" / job / "photos"
            folder.mkdir(parents=True, exist_ok=True)
            picture.save(folder / f"{name}.jpg", quality=85, exif=exif)
    if not small:
        with (HERE / "features.csv").open("w", newline="", encoding="utf-8") as stream:
            csv.writer(stream, lineterminator="\n").writerows([["job", "file", "feature", "x", "y", "r"], *rows])


if __name__ == "__main__":
    main(sys.argv[1:])
