"""The small draft that the words' examples are lines of."""

EXAMPLE = """\
pattern example
    title "Example"

piece front
    points
        nape          at 0, 0
        neck          from nape: 7 cm across, 2 cm up
        shoulder      from neck: 12 cm at slope below across
        armpit        from nape: 22 cm across, 20 cm down
        waist_centre  from nape: 40 cm down
        waist_side    from waist_centre: 19 cm across
        hem_centre    from nape: 62 cm down
        hem_side      from hem_centre: 24 cm across
        button_places 5 points from nape to waist_centre

    let
        ease  = 3 cm
        slope = 20 deg

    outline
        neckline  nape to neck             curve leaving across arriving up
        overarm   neck to shoulder         straight
        armhole   shoulder to armpit       curve leaving down arriving across
        side      armpit to hem_side       curve through waist_side
        hem       hem_side to hem_centre   straight
        centre    hem_centre to nape       straight, on fold

    lines
        waist  waist_centre to waist_side   straight

    cut 1

piece back
    points
        low_centre  at 0, -58 cm
        low_side    at 30 cm, -58 cm
        high_side   at 30 cm, 0
        high        at 0, 0

    outline
        hem     low_side to low_centre   straight
        centre  low_centre to high       straight, on fold
        top     high to high_side        straight
        side    high_side to low_side    straight

    cut 1
"""


def with_line(line: str) -> str:
    """The draft with one line more in its front: a value under `let`, a line under `lines`, or a point."""
    block = "let" if line.split()[1] == "=" else "lines" if line.split()[2] == "to" else "points"
    head, under, rest = EXAMPLE.partition(f"    {block}\n")
    return f"{head}{under}        {line}\n{rest}"
