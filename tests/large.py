"""Patterns larger than anybody would type, for what must stay proportionate: many pieces, many points, wide extents."""

from __future__ import annotations

_COAT = """\
pattern coat
    title      "Long coat"
    chart      "women.csv"
    allowance  1/2 in

body
    bust_girth, waist_girth, hip_girth, back_waist_length, hip_depth, outer_arm_length, upper_arm_girth, wrist_girth

template panel "A panel of shell or lining, from the bust to the hem."
    input
        broad   length            "at the bust"
        flare  number  = 120 %   "width at the hem for the width at the bust"
        long   length            "from the waist to the hem"

    points
        top_in    at 0, 0
        top_out   from top_in: broad across
        waist_in  from top_in: back_waist_length down
        waist_out from waist_in: broad * 85 % across
        hem_in    from waist_in: long down
        hem_out   from hem_in: broad * flare across, broad * (flare - 85 %) * 30 % up

    outline
        top       top_in to top_out     straight, unjoined
        out_side  top_out to hem_out
            curve leaving down to waist_out heading down
            curve
        hem       hem_out to hem_in
            curve leaving square to out_side arriving square to in_side
            allowance 1 1/2 in
            turned up
        in_side   hem_in to top_in      straight, unjoined

    grain  down

template sleeve "One of the two parts of a sleeve."
    input
        share  number   "of the girth of the arm"
        rise   length   "of the cap"

    points
        low_in    at 0, 0
        low_out   from low_in: upper_arm_girth * share + 4 cm across
        crown     from low_in: (upper_arm_girth * share + 4 cm) * 55 % across, rise up
        wrist_in  from low_in: 2 cm across, outer_arm_length * 70 % down
        wrist_out from wrist_in: wrist_girth * share + 6 cm across

    outline
        cap       low_in to low_out
            curve leaving (60 deg above across) to crown heading across
            curve arriving (60 deg below across)
            unjoined
        out_seam  low_out to wrist_out    curve leaving down arriving down, unjoined
        wrist     wrist_out to wrist_in   straight, allowance 1 1/2 in, turned up
        in_seam   wrist_in to low_in      straight, unjoined

    grain  down

template strip "A straight piece: belt, flap, facing, tab."
    input
        long  length   "its length"
        broad  length   "its width"

    points
        a  at 0, 0
        b  from a: long across
        c  from b: broad up
        d  from a: broad up

    outline
        low    a to b   straight, unjoined
        end    b to c   straight, unjoined
        high   c to d   straight, unjoined
        start  d to a   straight, unjoined

    grain    across
    stretch  up
"""


def coat(pieces: int = 40) -> str:
    """A coat of so many pieces in the sizes of `women.csv`: panels, sleeves and strips, and seams between panels."""
    kinds = [_piece(k) for k in range(pieces)]
    panels = [name for name, kind, _ in kinds if kind == "panel"]
    joins = [
        f"    side_{k} {a}.out_side to {b}.out_side"
        for k, (a, b) in enumerate(zip(panels[::2], panels[1::2], strict=False))
    ]
    text = "\n".join(block for _, _, block in kinds)
    return f"{_COAT}\n{text}\njoin\n" + "\n".join(joins) + "\n"


def _piece(k: int) -> tuple[str, str, str]:
    kind = ("panel", "panel", "strip", "sleeve", "strip")[k % 5]
    step = k // 5
    name = f"{kind}_{k}"
    inputs = {
        "panel": f"    broad = bust_girth / {6 + step % 4 * 2}\n    long = {50 + step % 3 * 10} cm\n",
        "sleeve": f"    share = {50 - step % 3 * 8} %\n    rise = {12 - step % 4} cm\n",
        "strip": f"    long = waist_girth / {1 + (k * 7) % 5}\n    broad = {3 + (k * 3) % 9} cm\n",
    }[kind]
    return name, kind, f"piece {name} is {kind}\n{inputs}    cut 2\n"


def triangles(count: int) -> str:
    """So many plain triangles of like size, in three sizes."""
    head = 'pattern many\n    chart "women.csv"\n\nbody\n    bust_girth, waist_girth\n'
    return head + "".join(
        f"\npiece p{k}\n    points\n        a at 0, 0\n        b from a: bust_girth / {4 + k % 3} across\n"
        f"        c from a: waist_girth / {5 + k % 4} up\n\n    outline\n        ab a to b straight, unjoined\n"
        "        bc b to c straight, unjoined\n        ca c to a straight, unjoined\n\n    grain up\n    cut 2\n"
        for k in range(count)
    )


def fine_edge(points: int, zigzag: bool = False) -> str:
    """One piece with so many points on an edge: along a gentle wave, or up and down as a zigzag."""
    lines = [
        "pattern fine",
        '    chart "women.csv"',
        "",
        "body",
        "    bust_girth",
        "",
        "piece one",
        "    points",
        "        p0 at 0, 0",
    ]
    for k in range(1, points + 1):
        lift = (1.0 if k % 2 else 0.0) if zigzag else 0.4 * (k % 4)
        lines.append(f"        p{k} from p0: bust_girth * {k / points:.5f} across, {lift:.2f} cm up")
    lines += [
        "        low from p0: 40 cm down",
        "        right from low: bust_girth across",
        "",
        "    outline",
        f"        top p0 to p{points}",
    ]
    lines += [f"            straight to p{k}" if zigzag else f"            curve to p{k}" for k in range(1, points)]
    lines += ["            straight" if zigzag else "            curve", "            unjoined"]
    lines += [
        f"        out p{points} to right straight, unjoined",
        "        hem right to low straight, unjoined",
        "        in low to p0 straight, unjoined",
        "",
        "    grain up",
        "    cut 1",
    ]
    return "\n".join(lines) + "\n"
