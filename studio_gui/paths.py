"""Where the program's own data files stand, and which version of it this is.

Rule: a checkout reads the folders beside the package, so that an edit shows at once; an installed program
reads the copies inside it.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def resources_dir() -> Path:
    """Folder of the data the program ships: tables, icons, fonts, help."""
    return data_folder("resources", _PACKAGE)


def samples_dir() -> Path:
    """Folder of the sample plans, each of which opens and exports as it is."""
    return data_folder("sample_projects", _PACKAGE)


def font_path(*, bold: bool = False) -> Path:
    """File of the bundled font, regular or bold; its family name is "Noto Sans"."""
    return resources_dir() / "fonts" / ("NotoSans-Bold.ttf" if bold else "NotoSans-Regular.ttf")


def fibre_path() -> Path:
    """File of the combed fibres that wool is drawn with."""
    return resources_dir() / "fibre" / "combed_top.npz"


def data_folder(name: str, package: Path) -> Path:
    """Folder `name` of the program whose package folder is `package`.

    It is the one beside the package if that is a checkout (it has a pyproject.toml), else the copy
    shipped inside the package, whose name starts with an underscore.
    """
    beside = package.parent / name
    if (package.parent / "pyproject.toml").is_file() and beside.is_dir():
        return beside
    return package / f"_{name}"


def program_version() -> str:
    """Version of the program as it was installed; words in its place where it was not."""
    # half of a start's own time, for a word that is seldom asked for
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415

    try:
        return version("roving-lay")
    except PackageNotFoundError:
        return "(not installed)"
