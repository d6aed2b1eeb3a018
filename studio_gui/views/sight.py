"""Whether anybody can see a widget.

The rule of this module: what nobody can see reckons nothing. In a window that is not shown yet, everything
counts as seen.
"""

from __future__ import annotations

from weakref import ref

from PySide6.QtWidgets import QDockWidget, QWidget

from studio_gui.document.follower import Follower


def rest_out_of_sight(follower: Follower, widget: QWidget) -> None:
    """Let a follower rest while the pane of a widget is hidden: its dock closed, or behind another's tab.

    The widget calls `Follower.catch_up` when it is shown, and when it is painted, because one that comes from
    behind a tab is not shown anew.
    """
    watched = ref(widget)  # they would hold each other else

    def is_seen() -> bool:
        here = watched()
        return here is not None and can_be_seen(here)

    follower.is_wanted = is_seen


def can_be_seen(widget: QWidget) -> bool:
    """Tell whether the place of a widget can be seen, by scrolling at most.

    Whether it is hidden there does not count: that may hang on what it would show.
    """
    place = widget.parentWidget()
    dock, around = None, place
    while around is not None:
        if isinstance(around, QDockWidget):
            dock = around
        outermost, around = around, around.parentWidget()
        if around is None and not outermost.isVisible():
            return True
    return (place is None or place.isVisible()) and (dock is None or not dock.visibleRegion().isEmpty())
