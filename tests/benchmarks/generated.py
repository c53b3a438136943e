"""Plans of any length: one house whose panel supplies outbuilding after outbuilding."""

from __future__ import annotations

HEAD = """\
format: precover-plan/1
title: A house with many outbuildings
rules: [us-2023]
site:
  premises: one-family dwelling
  design-high: 95 °F
  design-low: 0 °F
  frost: true
"""

PANEL = """\
  house-panel:
    at: house
    area: garage
    location: dry
    duty: service equipment
    system: 120/240 V
    main: 200 A
"""

STRUCTURE = "  studio-{n}: {{use: accessory, detached: true, habitable: false, floor: at or below grade}}\n"

CIRCUIT = """\
  circuit-{n}:
    kind: branch circuit
    from: house-panel
    voltage: 120 V
    multiwire: false
    load: 12 A
    limited-load: true
    breaker: {{rating: 20 A, poles: 1, ground-fault: none, readily-accessible: true}}
"""

BOXES = """\
  terrace-box-{n}:
    at: house
    area: outdoors
    location: wet
    box: {{kind: box, material: PVC, volume: 32 in³, listed-for: wet, mounting: surface}}
    devices:
      outlet:
        receptacle: 20 A
        voltage: 125 V
        ground-fault: true
        protects-downstream: true
        weather-resistant: true
        tamper-resistant: true
        cover: in-use
        extra-duty: true
        readily-accessible: true
  entry-box-{n}:
    at: studio-{n}
    area: indoors
    location: dry
    box: {{kind: box, material: PVC, volume: 34 in³, listed-for: dry, mounting: surface}}
    devices:
      main-switch:
        switch: 20 A
        role: disconnect
        opens: all hots
        identified: true
        readily-accessible: true
        at-entry: true
      bench-outlet: {{receptacle: 20 A, voltage: 125 V, ground-fault: false, tamper-resistant: true}}
"""

ROUTES = """\
  wall-{n}:
    from: house-panel
    to: terrace-box-{n}
    raceway: none
    carries:
      circuit-{n}: {{cable: NM-B 12/2}}
    legs:
      - {{in: wall framing, length: 14 ft, location: dry, edge-distance: 1 1/2 in}}
  yard-{n}:
    from: terrace-box-{n}
    to: entry-box-{n}
    raceway: PVC-80 3/4 in
    complete-before-pull: true
    seal-at-from: true
    seal-at-to: true
    carries:
      circuit-{n}: {{cable: UF-B 12/2}}
    legs:
      - {{rise: 2 ft, length: 3 ft, to-entry: true, physical-damage: true, sunlight: true, slip-fitting: true}}
      - {{bend: 90°}}
      - {{buried: lawn, length: 46 ft, cover: {cover} in}}
      - {{bend: 90°}}
      - {{rise: 2 ft, length: 3 ft, to-entry: true, physical-damage: true, sunlight: true, slip-fitting: true}}
      - {{through: wall, length: 8 in, sealed: true}}
"""


def plan_of(lines: int) -> str:
    """A valid plan of at least `lines` lines; every fifth outbuilding's trench is too shallow."""
    each = sum(part.count("\n") for part in (STRUCTURE, CIRCUIT, BOXES, ROUTES))
    head = HEAD.count("\n") + PANEL.count("\n") + 6
    count = max(1, -(-(lines - head) // each))
    numbers = range(1, count + 1)
    parts = [HEAD, "structures:\n  house: {use: dwelling, floor: at or below grade}\n"]
    parts += [STRUCTURE.format(n=n) for n in numbers]
    parts += ["panels:\n", PANEL, "circuits:\n", *(CIRCUIT.format(n=n) for n in numbers)]
    parts += ["boxes:\n", *(BOXES.format(n=n) for n in numbers)]
    parts += ["routes:\n", *(ROUTES.format(n=n, cover=10 if n % 5 == 0 else 18) for n in numbers)]
    return "".join(parts)
