"""The verb about envelopes: a pattern with all that it uses as one file, what is in one, and taking it out."""

from __future__ import annotations

from pathlib import Path

import click

from draft.command.console import print_text, write
from draft.command.group import commands
from draft.command.options import PATTERN, PLACE
from draft.command.told_as_data import AS_JSON, tell, tell_written


@commands.command()
@PATTERN
@click.option("--out", "file", type=PLACE, metavar="FILE", help="Write the envelope there: marlpit.envelope.")
@click.option(
    "--with",
    "more",
    type=PLACE,
    multiple=True,
    metavar="FILE",
    help="Put this in too: a cloth, another chart; may be repeated.",
)
@click.option("--unpack", "folder", type=PLACE, metavar="DIR", help="Take the files of an envelope out, into there.")
@AS_JSON
def envelope(pattern: str, file: Path | None, more: tuple[Path, ...], folder: Path | None) -> None:
    """Put a pattern with all that it uses into one file, to hand it on.

    Every verb opens that file as it opens the pattern: `plainseam pack marlpit.envelope --out pack`. Without `--out`
    it is told what is or would be in it. Nobody's measures are put in.
    """
    from draft.base.envelope import SUFFIX, is_envelope, opened
    from draft.base.output import write_folder
    from draft.sharing.enclosed import enclosed, envelope_data, said_of, sealed, unsealed

    _agree(file, more, folder)
    if is_envelope(Path(pattern)) and not (file or more):
        print_text(said_of(opened(Path(pattern))))
        tell(lambda: envelope_data(opened(Path(pattern))))
        if folder:
            write(folder, unsealed(Path(pattern), folder))
        return
    if folder:
        raise click.UsageError(f"`--unpack` takes out of an envelope, a file that ends with {SUFFIX}")
    if file and file.suffix != SUFFIX:
        raise click.UsageError(f"`--out {file}` is to end with {SUFFIX}, so that it is known for an envelope")
    made = enclosed(pattern, more)
    print_text(said_of(made))
    tell(lambda: envelope_data(made))
    if file:
        write_folder(file.parent, {file.name: sealed(made)})
        print_text(f"wrote {file}")
        tell_written(file.parent, {file.name: sealed(made)})


def _agree(file: Path | None, more: tuple[Path, ...], folder: Path | None) -> None:
    if folder and (file or more):
        raise click.UsageError("`--unpack` goes with neither `--out` nor `--with`")
