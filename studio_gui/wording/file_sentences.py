"""What is said of a file that cannot be read or written: what, where in it, and how to mend.

The rule of this module: every code that storage and exports raise has a sentence here, except those that a
value in the file shares with a value typed in. What is wrong inside a file is told with its place.
"""

from __future__ import annotations

from difflib import get_close_matches
from pathlib import PurePath

from studio_gui.wording.moments import moment_of, moment_words
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.told import Telling, Told
from studio_gui.wording.translation import Tongue

LONGEST_PATH = 1_000


def located(told: Told, sentence: str) -> str:
    """Return `sentence` with the file it is about, and the place in it, said first."""
    path, place = told.text("path"), told.text("place")
    told = told.plus(
        sentence=sentence, file=one_line(PurePath(path).name), place=one_line(place, LONGEST_PATH)
    )
    if "line" in told.params:
        if path:
            return told.translate("Files", "{file}, line {line}, column {column}: {sentence}")
        return told.translate("Files", "Line {line}, column {column}: {sentence}")
    if place:
        if path:
            return told.translate("Files", "{file}, at {place}: {sentence}")
        return told.translate("Files", "At {place}: {sentence}")
    return told.translate("Files", "{file}: {sentence}") if path else sentence


def with_path(told: Told) -> Told:
    """Return `told` with its whole path as a word."""
    return told.plus(path=one_line(told.text("path"), LONGEST_PATH) or UNKNOWN)


def _kind(name: str, tongue: Tongue) -> str:
    """Return what a JSON type is called by somebody who edits a plan by hand."""
    return {
        "object": tongue.translate("Files", "a group in { }"),
        "array": tongue.translate("Files", "a list in [ ]"),
        "string": tongue.translate("Files", "text in quotes"),
        "number": tongue.translate("Files", "a number"),
        "integer": tongue.translate("Files", "a whole number"),
        "boolean": tongue.translate("Files", "true or false"),
        "null": tongue.translate("Files", "null"),
    }.get(name, one_line(name))


def _not_a_plan(told: Told) -> str:
    if not told.text("found"):
        return told.translate(
            "Files",
            "This does not say that it is a plan of Roving Lay. Choose a file that ends in .roving.json.",
        )
    return told.plus(found=_kind(told.text("found"), told.tongue)).translate(
        "Files", "This is not a plan of Roving Lay (found: {found}). Choose a file that ends in .roving.json."
    )


def _not_ladders(told: Told) -> str:
    return told.plus(found=_kind(told.text("found"), told.tongue)).translate(
        "Files", "This is not a list of ladders of Roving Lay (found: {found})."
    )


def _wrong_type(told: Told) -> str:
    expected, found = (_kind(told.text(name), told.tongue) for name in ("expected", "found"))
    return told.plus(expected=expected, found=found).translate(
        "Files", "Here belongs {expected}, and there is {found}. Put it right, or take the file from a copy."
    )


def _not_json(told: Told) -> str:
    if told.params.get("cut_short"):
        return told.translate("Files", "The file ends in the middle, as if cut short. Take it from a copy.")
    return told.translate("Files", "This cannot be read as JSON. Put it right, or take the file from a copy.")


def _unknown_key(told: Told) -> str:
    meant = get_close_matches(told.text("key"), told.text("absent").split(", "), n=1)
    if meant:
        return told.plus(meant=meant[0]).translate(
            "Files", "“{key}” does not belong here. Write “{meant}” if that is meant, or take it out."
        )
    return told.translate("Files", "“{key}” does not belong here. Take it out.")


def too_large(told: Told) -> str:
    """Return that a file is too large, for a plan or for its disk."""
    if "most_bytes" not in told.params:
        return told.translate("Files", "The file is larger than the disk allows. Save it on another disk.")
    megabytes = f"{told.number('most_bytes') / 1024 / 1024:.0f}"
    return told.plus(megabytes=megabytes).translate(
        "Files", "A file of a plan has at most {megabytes} MB. Choose another one."
    )


def _failed(told: Told) -> str:
    if told.text("reason"):
        return told.translate(
            "Files", "{path} could not be used: {reason}. Try again, or use another folder."
        )
    return told.translate("Files", "{path} could not be used. Try again, or use another folder.")


def _photo_too_large(told: Told) -> str:
    if "megapixels" in told.params:
        return told.translate(
            "Files", "{path} has {megapixels} megapixels. Save the part with the swatches, at most 120."
        )
    return told.translate("Files", "{path} has {megabytes} MB. Save the photo smaller, at most 100 MB.")


def _plan_held(told: Told) -> str:
    told = with_holder(told)
    if not told.text("user"):
        return told.translate("Files", "{path} is open in another window. Close it there, or work on a copy.")
    return told.translate(
        "Files",
        "{path} is open: {holder}. Close it there, or work on a copy.",
    )


def _plan_held_far(told: Told) -> str:
    return with_holder(told).translate(
        "Files",
        "{path} was opened on another computer and may be open there still: {holder}."
        " Close it there, work on a copy, or take it over.",
    )


def with_holder(told: Told) -> Told:
    """Return `told` with who holds a plan as a word."""
    since = moment_of(told.text("since"))
    told = told.plus(number=str(told.params.get("process", "")), moment=moment_words(since, told.tongue))
    return told.plus(
        holder=told.translate("Files", "{program}, user {user} on {host}, process {number}, since {moment}")
    )


#: Of files as a whole; these name the path themselves.
OUTSIDE: dict[str, Telling] = {
    "file-not-found": lambda told: told.translate(
        "Files", "{path} is not there. It may have been moved or renamed."
    ),
    "file-not-readable": lambda told: told.translate(
        "Files", "You may not read {path}. Ask its owner, or make a copy that is yours."
    ),
    "file-not-writable": lambda told: told.translate(
        "Files", "{path} is protected against changes. Save under another name."
    ),
    "folder-missing": lambda told: told.translate(
        "Files", "The folder for {path} is not there. Save in another one."
    ),
    "folder-not-writable": lambda told: told.translate(
        "Files", "You may not write in the folder of {path}. Save in another one."
    ),
    "disk-full": lambda told: told.translate(
        "Files", "The disk of {path} is full. Make room there, or save on another disk."
    ),
    "is-a-folder": lambda told: told.translate("Files", "{path} is a folder. Choose a file."),
    "not-a-folder": lambda told: told.translate(
        "Files", "{path} is a file, and a folder is needed there. Move the file to another place."
    ),
    "not-a-regular-file": lambda told: told.translate(
        "Files", "{path} is not an ordinary file. Choose one that is."
    ),
    "name-too-long": lambda told: told.plus(name=one_line(PurePath(told.text("path")).name)).translate(
        "Files", "The name “{name}” is too long. Choose a shorter one."
    ),
    "too-large-to-keep": lambda told: told.translate(
        "Files", "{path} holds far more than a plan now, and is not copied beside. Save under another name."
    ),
    "file-failed": _failed,
    "photo-empty": lambda told: told.translate(
        "Files", "{path} is empty: there is no picture in it. Copy the photo again, or choose another."
    ),
    "photo-unreadable": lambda told: told.translate(
        "Files",
        "{path} holds no picture that can be read, whatever its name ends with. Open the photo where it came"
        " from, and save it as JPEG or PNG.",
    ),
    "photo-damaged": lambda told: told.translate(
        "Files", "{path} is a picture, but damaged or cut short. Copy it again from the camera."
    ),
    "photo-too-large": _photo_too_large,
    "plan-held": _plan_held,
    "plan-held-far": _plan_held_far,
    "export-onto-plan": lambda told: told.translate(
        "Files", "{path} is a plan, and the export would take its place. Choose another name."
    ),
    "unknown-ending": lambda told: told.translate(
        "Files", "The name {path} does not say what to write. Let it end in one of: {endings}."
    ),
    "picture-too-large": lambda told: told.translate(
        "Files",
        "A picture of {sections} sections could not be read. Let its name end in .pdf or .svg, which have no"
        " such bounds.",
    ),
    "no-pages": lambda told: told.translate("Files", "There is no page to print. Tick a sheet."),
    "printer-failed": lambda told: told.translate(
        "Files", "The printer does not take the pages. See whether it is on, or save them as a PDF."
    ),
    "picture-failed": lambda told: told.translate(
        "Files", "The picture could not be drawn. Try again, or write another kind of file."
    ),
}

#: Of what stands in a file; told with the place.
INSIDE: dict[str, Telling] = {
    "file-too-large": too_large,
    "snapshot-broken": lambda told: told.translate(
        "Files",
        "This copy is damaged, and no plan can be taken from it. Keep it for somebody who can, or delete it.",
    ),
    "snapshot-taken": lambda told: told.translate(
        "Files", "Another window has begun to recover this, and keeps it. Go on with it there."
    ),
    "snapshot-gone": lambda told: told.translate(
        "Files",
        "Another window has saved this by now, or given it up. Nothing is left to recover here.",
    ),
    "snapshot-stays": lambda told: told.translate(
        "Files",
        "This copy may not be deleted, and stays. Its folder or its disk is protected.",
    ),
    "snapshot-newer": lambda told: told.translate(
        "Files", "A newer Roving Lay kept this copy. Open it with that one."
    ),
    "byte-order-mark": lambda told: told.translate(
        "Files", "The text begins with a byte order mark. Save it as plain UTF-8, without one."
    ),
    "not-utf8": lambda told: told.translate(
        "Files", "The text is not in UTF-8. Save it so, or take the file from a copy."
    ),
    "nested-too-deep": lambda told: told.translate(
        "Files",
        "Brackets stand in brackets more than {deepest} deep; no plan does that. Take the file from a copy.",
    ),
    "too-many-values": lambda told: told.translate(
        "Files", "There is far more in this than any plan has. Take the file from a copy."
    ),
    "list-too-long": lambda told: told.translate(
        "Files", "The list has {count} entries, and {most} is the most. Take some out."
    ),
    "file-empty": lambda told: told.translate("Files", "There is nothing in the file. Take it from a copy."),
    "not-json": _not_json,
    "key-twice": lambda told: told.translate("Files", "“{key}” stands there twice. Take one out."),
    "not-finite": lambda told: told.translate(
        "Files", "“{value}” is no number that a plan can have. Write one, such as 12.5."
    ),
    "lone-surrogate": lambda told: told.translate(
        "Files", "The text has half a character in it. Write it anew."
    ),
    "not-a-plan": _not_a_plan,
    "not-ladders": _not_ladders,
    "file-newer": lambda told: told.translate(
        "Files",
        "A newer Roving Lay saved this (format {version}; this one knows {ours}). Open it with that one.",
    ),
    "version-unknown": lambda told: told.translate(
        "Files", "There is no format {version}; this Roving Lay knows {ours}. Take the file from a copy."
    ),
    "unknown-key": _unknown_key,
    "key-missing": lambda told: told.translate(
        "Files", "“{key}” is missing. Put it in, or take the file from a copy."
    ),
    "wrong-type": _wrong_type,
    "spectrum-not-text": lambda told: told.translate(
        "Files", "This is not a text. Save the spectrum as CSV: a wavelength and a reflectance in every row."
    ),
    "spectrum-no-rows": lambda told: told.translate(
        "Files", "No row has a wavelength and a reflectance, such as 400; 0.52. Choose a file that has them."
    ),
    "spectrum-row": lambda told: told.translate(
        "Files",
        "Row {row} cannot be read: “{value}”. Write a wavelength and a reflectance, such as 400; 0.52.",
    ),
    "spectrum-commas": lambda told: told.translate(
        "Files",
        "In row {row} commas may stand between numbers or within them: “{value}”. Put semicolons between, or"
        " leave two columns.",
    ),
}
