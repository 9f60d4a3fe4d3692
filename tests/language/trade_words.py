"""Ten places where a designer gives a name and speaks of it again; `NAME` stands for the name."""

from __future__ import annotations

from lark import Token, Tree

from draft.language.grammar import parser

PLACES = {
    "a measure of one's own": """\
        body
            NAME  from 10 cm to 20 cm, about waist_girth / 4  "her own"
        let
            half_of_it = half of NAME
            more       = larger of NAME * 2 and NAME + 3 cm
        """,
    "a style": """\
        style
            NAME  3 cm  from 1 cm to 9 cm  "how wide"
        let
            wider = by NAME: at 1 cm 3 cm, at 9 cm 20 cm
            other = (NAME) - NAME / 3
        """,
    "an option of a choice": """\
        style
            cuff  NAME  of NAME, plain  "its end"
        let
            depth = by cuff: NAME 3 cm, plain or NAME 4 cm
        piece sleeve
            when cuff is NAME and cuff is not NAME
                cut 2
        """,
    "a value": """\
        let
            NAME  = 3 cm
            other = NAME
            turn  = sine of NAME + quarter of NAME
        check
            NAME at least 2 cm  "it is enough"
            length of front.hem equals NAME  "it fits"
        """,
    "a point": """\
        piece front
            points
                NAME   at 0, 0
                low_1    from NAME: 3 cm down
                mid_1    midway NAME to low_1
                there  is NAME
                side_1   on NAME to low_1: NAME from NAME
            outline
                hem   NAME to low_1  straight, curve through NAME then mid_1 to NAME
                edge_1  low_1 to NAME  beside hem
        """,
    "an edge": """\
        piece front
            outline
                NAME  p_1 to p_2  straight
                hem   p_2 to p_3  following NAME, curve leaving square to NAME
                NAME  allowance 2 cm
            points
                p  on NAME: 2 cm from p_1
                q  where NAME meets NAME
            let
                l = length of NAME + length of front.NAME
        """,
    "a piece": """\
        piece NAME
            cut 1
        piece other from NAME, between NAME.hem and side_1
        join
            side_1  NAME.hem to other.hem reversed, notch at 50 %
        finished
            hem around = length of NAME.hem over hip_girth
        """,
    "a dart": """\
        piece front
            darts
                NAME  on hem: 3 cm wide at middle, to tip, 2 cm short
            moves
                close NAME, open NAME on hem at middle
                close 50 % of NAME, into gathers on hem
        """,
    "a mark": """\
        piece front
            marks
                NAME  line p_1 to p_2
                NAME  drill at NAME
                NAME  buttonhole at NAME, 2 cm long
        """,
    "a join and what is finished": """\
        join
            NAME  front.side_1 to back.NAME, trued
            seat  outside NAME.side_1 then back.side_1 to front.NAME reversed
        finished
            NAME around = 3 cm + NAME over NAME passing NAME
        booklet
            step NAME  "Press it."
        """,
}


def fits(word: str, text: str) -> bool:
    """Whether a word is a name wherever it stands for one in a text: the tree is that of a name that means nothing."""
    plain = parser().parse(_filled(text, "zzz"))
    try:
        found = parser().parse(_filled(text, word))
    except Exception as mistake:  # whatever the parser says of it
        assert "Unexpected" in type(mistake).__name__ or "Dedent" in type(mistake).__name__
        return False
    return _with(found, word) == plain


def refused(word: str) -> list[str]:
    """The places in which a word of the language cannot be a name."""
    return [place for place, text in PLACES.items() if not fits(word, text)]


def _filled(text: str, name: str) -> str:
    return "\n".join(line.removeprefix("        ") for line in text.replace("NAME", name).split("\n"))


def _with(node: object, word: str) -> object:
    if isinstance(node, Tree):
        return Tree(node.data, [_with(child, word) for child in node.children])
    return "zzz" if isinstance(node, Token) and node.type == "NAME" and node == word else node
