"""What is said of a file that cannot be saved to, where the same code is told otherwise of one to be read.

The rule of this module: it is no help on saving to work on a copy, to close the plan that is open here, or to
take the file from elsewhere.
"""

from __future__ import annotations

from studio_gui.wording.file_sentences import too_large, with_holder
from studio_gui.wording.told import Telling, Told


def _held_on_saving(told: Told) -> str:
    told = with_holder(told)
    if not told.text("user"):
        return told.translate(
            "Files", "{path} is open in another window. Save under another name, or close it there first."
        )
    return told.translate(
        "Files", "{path} is open: {holder}. Save under another name, or close it there first."
    )


def _held_far_on_saving(told: Told) -> str:
    return with_holder(told).translate(
        "Files",
        "{path} was opened on another computer and may be open there still: {holder}. Save under another"
        " name, or write over it if nobody works on it there.",
    )


def _too_much_to_save(told: Told) -> str:
    return told.translate("Files", "The plan holds more than a file of it may. Take out what is not needed.")


def _too_large_to_save(told: Told) -> str:
    return _too_much_to_save(told) if "most_bytes" in told.params else too_large(told)


#: What is said otherwise where something was to be saved: it is no help then to work on a copy, or to read.
ON_SAVING: dict[str, Telling] = {
    "plan-held": _held_on_saving,
    "plan-held-far": _held_far_on_saving,
    "file-not-readable": lambda told: told.translate(
        "Files", "What stands in {path} may not be read, and so not be kept. Save under another name."
    ),
    "file-too-large": _too_large_to_save,
    "too-many-values": _too_much_to_save,
}
