"""ezdxf imported without a look for fonts: it would list the machine's in a file under the user's home, where nobody told us to write.

It finds the empty list beside this module instead. One of another form than ours it would write again, so that then it is
shown a place where nothing can be.
"""

import json
import logging
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path

CACHE = "XDG_CACHE_HOME"
LIST = Path(__file__).parent / "ezdxf" / "font_manager_cache.json"
_FORM = re.compile(r"^CURRENT_CACHE_VERSION\s*=\s*(\d+)", re.MULTILINE)


@contextmanager
def without_fonts() -> Iterator[None]:
    """What is imported meanwhile finds no fonts and writes no list; the environment is put back as it was."""
    log, before = logging.getLogger("ezdxf"), os.environ.get(CACHE)
    quiet = log.disabled
    os.environ[CACHE], log.disabled = str(_place()), True
    try:
        yield
    finally:
        log.disabled = quiet
        os.environ.pop(CACHE)
        if before is not None:
            os.environ[CACHE] = before


def _place() -> Path:
    """The folder of the list where ezdxf reads its form; else a file, in which no folder can be made."""
    ours = json.loads(LIST.read_text(encoding="utf-8"))["version"]
    return LIST.parents[1] if ours == _form() else Path(__file__)


def _form() -> int:
    """The form of list that the installed ezdxf reads, from its source; 0 where that says none."""
    spec = find_spec("ezdxf")
    places = (spec.submodule_search_locations if spec else None) or []
    found = None
    for place in places:
        source = Path(place) / "fonts" / "font_manager.py"
        found = _FORM.search(source.read_text(encoding="utf-8")) if source.is_file() else None
    return int(found[1]) if found else 0
