"""Where things lie: reference data, sample households, the user's own folders.

In a checkout `resources/` and `sample_wells/` stand beside the package; in an installed wheel
they lie inside it. This is the only module that knows both.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def _folder(name: str) -> Path:
    inside = _PACKAGE / f"_{name}"
    return inside if inside.is_dir() else _PACKAGE.parent / name


def resources() -> Path:
    """Folder of the reference data: parameters, limits, panels, cautions, fonts, icons."""
    return _folder("resources")


def sample_wells() -> Path:
    """Folder of the invented households."""
    return _folder("sample_wells")


def data() -> Path:
    """The one folder that Wellbook writes on its own account, made if missing."""
    import platformdirs

    return platformdirs.user_data_path("wellbook", appauthor=False, ensure_exists=True)


def cache() -> Path:
    """Folder for what can be made again at any time; inside `data`, so that one folder is all."""
    folder = data() / "cache"
    folder.mkdir(exist_ok=True)
    return folder


def documents() -> Path:
    """The user's documents folder."""
    import platformdirs

    return platformdirs.user_documents_path()
