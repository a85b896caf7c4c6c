"""What `aswired new` writes: a job that passes `aswired check` as it stands, with the next steps as comments."""

from __future__ import annotations

import re

JOB_YML = """\
# One folder is one job. Every value is text: write it as you would on the tape.
# "unknown" is a good answer; a guess is not. A line that begins with # is not read.
# See what you wrote:   aswired check {name}        Make the site:   aswired build

job: {title}                       # the title; with one change it is all that must be here
vehicle: what car it is now         # in words, no name or plate of the owner
donor: what the harness came from
donor colours: BN                   # colours that mean ground in this donor
system: 12 V
supply: 13.5 V                      # volts the figures are for
temperature: 20 C
AWG means: SAE J1128                # or ASTM B258
ground side: negative
left and right: as seated, looking forward
units: mm                           # or inch; shown first
handed over: not yet                # or the date: 2024-05-09
revision: 1

usual:                              # the house method; any row may say otherwise
  joint: lap, soldered
  overlap: 10 mm                    # conductor side by side in one joint
  cover: adhesive sleeve 40 mm
  slack: 50 mm
  ring strip: 6 mm
  cut to next: 5 mm

# private:                          # never in the owner's edition, and searched for in it
#   customer: who pays
#   plate: its number

landmarks:                          # fixed features that a tape measure can start from
  bulkhead: rubber grommet, engine face
  nose: back of the left lamp plug
route:                              # the finished car, from landmark to landmark
  - {{from: bulkhead, to: nose, length: 1.9 m, zone: dry}}

plugs:
  lamp-left: {{ways: 2, seen from: wire side, at: nose}}
wires:                              # only those you touch or rely on
  W1: {{colour: GN/WH, size: 18 AWG, from: unknown, to: lamp-left.1}}

changes:                            # what was done, a row each, in the order it is done
  - id: C1                          # write this id on the tape too
    kind: extend
    wire: W1
    plug: lamp-left                 # the end that moved
    gap: 18 in                      # cut face to cut face, both halves in their final place
    pigtail: 6 in                   # from the plug to its cut face
    piece: GN/WH 18 AWG
    why: the lamp sits further forward on this body
    # made: 2024-05-04 AK           # date and initials, when it is done; then sealed:, tested:
    # photos: [P1]

# photos:
#   - {{id: P1, file: photos/0001.jpg, shows: [C1], stage: bare joint, caption: first joint with rule}}
# readings:
#   - {{id: R1, of: C1, red: lamp-left.1, black: battery-, with: lamp on, read: 13.1 V, on: 2024-05-04, by: AK}}

# aswired reference   prints every key;   aswired sheets   makes blank sheets to fill in by hand at the bench.
"""


def job_yml(name: str) -> str:
    """The text of job.yml for a new job folder called `name`."""
    return JOB_YML.format(name=name, title=title_of(name))


def title_of(name: str) -> str:
    """A title from a folder's name.

    >>> title_of("green-van")
    'Green van'
    """
    words = " ".join(re.split(r"[-_\s]+", name.strip()))
    return words[:1].upper() + words[1:]


def fit_name(name: str) -> bool:
    """Whether a name can be a folder and an address everywhere: letters, digits, dash, underline, point inside."""
    return re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[A-Za-z0-9_-]+)*", name) is not None
