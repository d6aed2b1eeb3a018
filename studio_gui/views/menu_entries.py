"""Entries of menus.

The rule of this module: an entry is made here, not by ``addAction(text)`` of Qt. The object of an action that
Qt made can be lost while the action is still there, once another menu is destroyed (seen with PySide 6.11.3).
"""

from __future__ import annotations

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu


def add_entry(menu: QMenu, words: str = "") -> QAction:
    """Return a new entry at the end of a menu."""
    action = QAction(words, menu)
    menu.addAction(action)
    return action
