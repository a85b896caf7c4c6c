"""What a person should look at that the program does not judge, and why a written record cannot carry it."""

from __future__ import annotations

from aswired.checks.codes.code import Unjudged

UNJUDGED = (
    Unjudged(
        "Whether what is written is true of the car",
        "All is computed from the files. Only a look, a tape measure and a meter tell whether they are right.",
    ),
    Unjudged(
        "How good a crimp or a soldered joint is",
        "The record has its form, cover and test, not the strands inside. Pull it, and measure across it under load.",
    ),
    Unjudged(
        "Whether a terminal sits locked in its cavity, and a stud is tight",
        "No key says so. Tug each terminal, and measure the drop at each stud with its loads on.",
    ),
    Unjudged(
        "Chafing, sharp edges, moving and hot parts along the way",
        "The route has zones, landmarks and holes, not the space around the bundle. Follow the whole of it by hand.",
    ),
    Unjudged(
        "Strain relief, bends and clips",
        "How a bundle hangs between two landmarks is not recorded. Move it through its whole travel.",
    ),
    Unjudged(
        "Water: where it collects, and what has wicked along the strands",
        "A zone marked wet is all that is known. Water inside an old wire shows only when it is cut back.",
    ),
    Unjudged(
        "Heat damage, oil and nicks that nobody noted",
        "An offcut noted as browned is told; one that nobody looked at is not.",
    ),
    Unjudged(
        "How bare and clean a ground face is",
        "The words under 'surface:' are taken as written. Paint under a ring shows under load only.",
    ),
    Unjudged(
        "Distances to fuel lines and tank",
        "Only what is listed under 'near:' is known. Measure, and hold to the maker's and to local rules.",
    ),
    Unjudged(
        "The lay of a twisted pair, and whether a shield still screens",
        "Lengths and joints are recorded, not how the pair was laid again. A scope at both ends tells.",
    ),
    Unjudged(
        "What goes on inside a control unit",
        "Its inside is not traced: coding, learned keys, sleep and diagnosis are the maker's matter.",
    ),
    Unjudged(
        "A single ring that comes loose, a joint that resists",
        "The page of grounds tells what happens when a point loses its way back, and in which state; one ring of "
        "several, or a bad joint, is not solved.",
    ),
    Unjudged(
        "Inrush, stall and short-circuit currents, and how fast a fuse opens",
        "Loads have one current each. A motor that stalls, or a cold lamp, draws several times as much.",
    ),
    Unjudged(
        "Whether a fuse holder still conducts with the fuse out",
        "Only a test shows it: fuse out, circuit dead. The row that proved it is recorded, the next holder is not.",
    ),
    Unjudged(
        "Faces, plates and papers in a photograph",
        "Pictures are not looked into. A person says 'face or plate:' and draws the box that hides it.",
    ),
    Unjudged(
        "How long was waited after the battery came off",
        "The day is recorded, the minutes are not. The vehicle maker's procedure says how long, and comes first.",
    ),
    Unjudged(
        "What the law of the place asks for",
        "Rules differ from place to place. What has to work can be listed under 'must work:'; the list is yours.",
    ),
)
