"""Compile the languages when Wellbook is built, so that Babel is not needed where it runs."""  # noqa: INP001

import sys
from importlib import import_module
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CompileLanguages(BuildHookInterface[Any]):
    """Puts the compiled sentences of each language beside their text."""

    def initialize(self, _version: str, _build_data: dict[str, Any]) -> None:
        """Write `<key>/LC_MESSAGES/wellbook.mo` for each `<key>.po`."""
        root = Path(self.root)
        sys.path.insert(0, str(root))  # what is built is not installed yet
        try:
            translation = import_module("wellbook.support.translation")
        finally:
            sys.path.remove(str(root))
        for source in sorted((root / "resources" / "languages").glob("*.po")):
            made = translation.compiled_file(source.parent, source.stem)
            made.parent.mkdir(parents=True, exist_ok=True)
            made.write_bytes(translation.compile_language(source))
