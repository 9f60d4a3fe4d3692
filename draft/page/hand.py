"""A worker of the page: it reads asks on its standard input, answers each with a verb, and ends with its parent.

What goes wrong in a verb is told as a note; what breaks the process is seen by its parent, which starts another.
"""

from __future__ import annotations

import gc
import json
import sys
from pathlib import Path
from typing import Any

from draft.base.framing import Message, file_message
from draft.base.notes import Problems, error
from draft.base.plainly import Typed, sentence
from draft.base.worker_ways import end_with_parent, heard, limit, put, say, streams, where_broken
from draft.page.bench import Bench
from draft.page.notes_told import notes_told


def main() -> None:
    """Work until there are no more asks."""
    given = json.loads(sys.argv[1])
    limit(int(given["memory"]))
    asks, answers = streams()
    end_with_parent()
    bench = Bench(_path(given.get("people")), _path(given.get("file")))
    from draft.page.page_verbs import VERBS  # heavy: numpy and all rooms

    gc.freeze()
    say(answers, {"ready": True})
    while isinstance(ask := heard(asks), dict):
        bench.step = lambda words: say(answers, {"step": words})
        bench.hand_over = lambda name, data: put(answers, file_message(name, data))
        say(answers, answered(VERBS, ask, bench))


def answered(verbs: dict[str, Any], ask: Message, bench: Bench) -> Message:
    """What a verb gives, or notes on why it gives nothing."""
    verb = verbs.get(str(ask.get("verb")))
    try:
        if verb is None:
            fact = "the page asked for something that is not known here"
            raise Problems([error(fact, None, "load it again", plainly=sentence("page_is_old"))])
        return {"gave": verb(ask.get("asked") or {}, bench)}
    except Problems as problems:
        return {"notes": notes_told(problems.notes)}
    except MemoryError:
        fact = "this takes more memory than there is"
        return {"notes": notes_told([error(fact, None, "ask for fewer sizes", plainly=sentence("too_much_memory"))])}
    except (OSError, RecursionError) as reason:
        words = getattr(reason, "strerror", None) or type(reason).__name__
        plainly = sentence("system_refused", words=Typed(str(words)))
        return {"notes": notes_told([error(f"the system refused something: {str(words).lower()}", plainly=plainly)])}
    except Exception as reason:  # a fault of ours: told by its name alone, for what it says may hold measures
        where = where_broken(reason)
        print(f"page: `{ask.get('verb')}` broke: {where}", file=sys.stderr, flush=True)
        plainly = sentence("something_broke", where=Typed(where))
        fault = error(f"something broke that should not have ({where})", None, "report it, please", plainly=plainly)
        return {"notes": notes_told([fault]), "fault": True}


def _path(text: str | None) -> Path | None:
    return Path(text) if text else None


if __name__ == "__main__":
    main()
