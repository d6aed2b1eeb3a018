"""A list of the shelf: heading with buttons, table, what to do when it is empty, and what was not taken.

The rule of this module: whatever a button or the menu does, a key of the table does too; every command is
one undo step.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import QEvent, QKeyCombination, QModelIndex, QSize, Qt
from PySide6.QtGui import QAction, QContextMenuEvent, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QMenu, QSizePolicy, QToolButton, QVBoxLayout

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.row_model import RowModel
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.fields import edit_and_say
from studio_gui.views.flow import FlowBar
from studio_gui.views.labels import MessageLabel, TonedLabel, call, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.menu_button import MenuButton
from studio_gui.views.row_table import RowTable
from studio_gui.wording.sentences import refusal

#: Rows that a list has room for at least; between the two it has room for all of its own.
ROWS_SHOWN = (3, 6)
BUTTON_PX = 24
#: Of a name with its swatch.
NAME_PX = 92
NAME_ENOUGH_PX = 140

Key = Qt.Key
ALT = Qt.KeyboardModifier.AltModifier


class ShelfTable(RowTable):
    """A table whose commands have keys, and whose least wanted columns give way when it is narrow.

    Parameters
    ----------
    model, name_column, widest, marked
        As for `RowTable`.
    wished
        Columns that may give way, the most wanted first.
    roomy
        Columns that share what is left beyond what is enough for names.
    name_px
        Least width of a name before the least wanted column gives way to it.
    """

    beside_text_px = 10

    def __init__(
        self,
        model: RowModel,
        name_column: int,
        widest: Mapping[int, str],
        wished: Sequence[int],
        roomy: Sequence[int],
        marked: tuple[int, ...] = (),
        name_px: int = NAME_PX,
    ) -> None:
        self._wished, self._roomy, self._name, self._name_px = wished, roomy, name_column, name_px
        self.menu = QMenu()
        super().__init__(model, name_column, widest, marked)
        self.menu.setParent(self, self.menu.windowFlags())
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.doubleClicked.connect(self._rename_beside)

    def fit_columns(self) -> None:
        """Show the wished columns that there is room for beside a readable name."""
        for column in self._wished:
            self.setColumnHidden(column, False)
        super().fit_columns()
        header = self.horizontalHeader()
        kept = [column for column in range(header.count()) if column not in (*self._wished, self._name)]
        room = self.viewport().width() - self._name_px - sum(header.sectionSize(column) for column in kept)
        for column in self._wished:
            room -= header.sectionSize(column)
            self.setColumnHidden(column, room < 0)
        self.fit_names()

    def fit_names(self) -> None:
        """Give the names the room that is left; what is more than enough is shared with roomy columns."""
        super().fit_names()
        header = self.horizontalHeader()
        sharing = [column for column in self._roomy if not self.isColumnHidden(column)]
        spare = header.sectionSize(self._name) - NAME_ENOUGH_PX
        if not sharing or spare <= 0:
            return
        share = spare // (len(sharing) + 1)
        header.resizeSection(self._name, header.sectionSize(self._name) - share * len(sharing))
        for column in sharing:
            header.resizeSection(column, header.sectionSize(column) + share)

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), self.maximumHeight())

    def edit_name(self) -> None:
        """Type over the name in the current row."""
        index = self.currentIndex()
        if index.isValid():
            there = index.siblingAtColumn(self._name)
            self.setCurrentIndex(there)
            self.edit(there)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit_columns()

    def event(self, event: QEvent) -> bool:
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and self._command(event)
        ):
            event.accept()  # before shortcuts of the window with the same keys
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        command = self._command(event)
        if command is not None:
            command.trigger()
            event.accept()
        elif event.key() == Key.Key_F2:
            self._rename_beside(self.currentIndex())
            super().keyPressEvent(event)
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self.menu.popup(event.globalPos())

    def _command(self, event: QKeyEvent) -> QAction | None:
        if self.state() == QAbstractItemView.State.EditingState:
            return None
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        pressed = QKeySequence(QKeyCombination(modifiers, Qt.Key(event.key())))
        return next((action for action in self.menu.actions() if pressed in action.shortcuts()), None)

    def _rename_beside(self, index: QModelIndex) -> None:
        """Let a double click, or F2, on a cell that is not typed into go to the name."""
        if not index.flags() & Qt.ItemFlag.ItemIsEditable:
            self.edit_name()


class Shelf(LiveWidget):
    """A heading with buttons, a table, and what was not taken."""

    def __init__(self, document: OpenPlan, model: RowModel, table: ShelfTable) -> None:
        super().__init__()
        self.document, self.model, self.table = document, model, table
        self.heading = TonedLabel("text")
        self.heading.setMinimumHeight(BUTTON_PX + 2)
        self.hint = TonedLabel("secondary")
        self.hint.setWordWrap(True)
        self.message = MessageLabel()
        self._of_rows: list[QToolButton] = []
        self._bar = FlowBar(spacing=4, to_the_right=True)
        self._buttons = self._bar.flow
        top = QHBoxLayout()
        top.setSpacing(4)
        top.addWidget(self.heading, 0, Qt.AlignmentFlag.AlignTop)
        top.addWidget(self._bar, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(top)
        column.addWidget(table)
        column.addWidget(self.hint)
        column.addWidget(self.message)
        model.refused.connect(self._say)
        model.accepted.connect(lambda: self.message.say(""))
        model.rearranged.connect(self._fit)
        self._fit()
        table.selectRow(0)

    @property
    def current_id(self) -> str:
        """Id of the selected row, "" where there is none."""
        row = self.table.currentIndex().row()
        return self.model.row_id(row) if 0 <= row < self.model.rowCount() else ""

    def hint_words(self) -> str:
        """Return what to do next, where something is missing; "" where nothing is."""
        return ""

    # -- commands ------------------------------------------------------------------------------------------

    def add_button(self, slot: Callable[[], None], *, needs_row: bool = False) -> QToolButton:
        """Put one more button beside the heading; one that `needs_row` is of no use for an empty list."""
        button = QToolButton()
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setMinimumSize(BUTTON_PX, BUTTON_PX)
        button.clicked.connect(slot)
        self._buttons.addWidget(button)
        if needs_row:
            self._of_rows.append(button)
        return button

    def add_more_button(self) -> QToolButton:
        """Put a button beside the heading that opens the menu of the table."""
        button = MenuButton()
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setMinimumSize(BUTTON_PX, BUTTON_PX)
        button.setText("⋯")
        button.setMenu(self.table.menu)
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self._buttons.addWidget(button)
        self._of_rows.append(button)
        return button

    def add_command(self, slot: Callable[[], object], *keys: Key | QKeyCombination) -> QAction:
        """Put one more command into the menu of the table; its keys work in the table alone."""
        action = QAction(self)
        action.setShortcuts([QKeySequence(key) for key in keys])
        action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.triggered.connect(lambda _checked: slot())
        self.table.menu.addAction(action)
        return action

    def edit(self, name: str, edit: Edit) -> bool:
        """Apply an edit; where it is refused, say why under the table."""
        done = edit_and_say(self.document, name, edit, self.message.say)
        self.table.setAccessibleDescription(self.message.text())
        return done

    def show_row(self, item_id: str) -> None:
        """Select the row of an id."""
        row = self.model.row_of(item_id)
        if row >= 0:
            self.table.setCurrentIndex(self.model.index(row, max(self.table.currentIndex().column(), 0)))

    def name_row(self, item_id: str) -> None:
        """Select the row of what has just been added, and type over its name."""
        self.show_row(item_id)
        self.table.setFocus()
        self.table.edit_name()

    # -- looks ---------------------------------------------------------------------------------------------

    def _set_fonts(self) -> None:
        self._fit()

    def _fit(self) -> None:
        least, most = ROWS_SHOWN
        count = self.model.rowCount()
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))
        self.table.setVisible(count > 0)
        for button in self._of_rows:
            button.setEnabled(count > 0)
        row_px = self.table.verticalHeader().defaultSectionSize()
        others_px = self.table.horizontalHeader().sizeHint().height() + 2
        self.table.setMinimumHeight(others_px + min(max(count, least), most) * row_px)
        self.table.setMaximumHeight(others_px + max(count, least) * row_px)
        words = self.hint_words()
        self.hint.show_text(words)
        self.hint.setVisible(bool(words))

    def _say(self, error: RovingLayError) -> None:
        self.message.say(refusal(error, self.document.plan))
        self.table.setAccessibleDescription(self.message.text())


def name_button(button: QToolButton, words: str, meaning: str) -> None:
    """Put words on a button, and what it does into its tooltip and its name for screen readers."""
    button.setText(words)
    button.setToolTip(meaning)
    call(button, meaning)
