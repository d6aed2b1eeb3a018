"""The window of a print: pages as they will come out, and what is printed.

The rule of this module: it prints exactly the pages that it shows. It is there at once; sheets are laid out
one after the other between events.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QHBoxLayout,
    QListWidget,
    QMessageBox,
    QPushButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.drawing.sheets.book import Sheet, wanted_sheets
from studio_gui.drawing.sheets.page import Page
from studio_gui.views.labels import TonedLabel, call
from studio_gui.views.page_view import PageView, Zoom
from studio_gui.views.print_choices import PrintChoices
from studio_gui.views.print_run import chosen_pages, cuts_off, print_pages, progress, save_pdf, set_up
from studio_gui.views.questions import Button, ask, tell
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number_briefly
from studio_gui.wording.sentences import refusal

ZOOMS: tuple[Zoom, ...] = ("page", "width", 0.5, 0.75, 1.0, 1.5, 2.0, 3.0)
_SIDE_PX = 250
_LONGEST_PATH = 160


class PrintPreview(QDialog):
    """Preview of the sheets of a worksheet.

    Signals
    -------
    said
        A sentence for the status bar of the window behind.
    """

    said = Signal(str)

    def __init__(
        self, sheet: Worksheet, preferences: Preferences, stem: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self._sheet, self._preferences, self._stem = sheet, preferences, stem
        self._waiting: list[Sheet] = []
        self._ready: dict[str, tuple[Page, ...]] = {}
        self.view = PageView()
        self.choices = PrintChoices(preferences.print_choices)
        self.list = QListWidget()
        self.back, self.forth = (QToolButton(autoRaise=True) for _ in range(2))
        self.where = TonedLabel("text")
        self.zoom = QComboBox()
        self.print_button, self.save_button = QPushButton(), QPushButton()
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self._next = QTimer(self, singleShot=True, interval=0)
        self._next.timeout.connect(self._lay_out_a_sheet)
        self._assemble()
        self._connect()
        self._retranslate()
        self._lay_out_anew()

    # -- putting together ----------------------------------------------------------------------------------

    def _assemble(self) -> None:
        self.buttons.addButton(self.save_button, QDialogButtonBox.ButtonRole.ActionRole)
        self.buttons.addButton(self.print_button, QDialogButtonBox.ButtonRole.ActionRole)
        self.buttons.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
        self.save_button.setAutoDefault(False)
        self.print_button.setDefault(True)
        side = QWidget()
        side.setFixedWidth(_SIDE_PX)
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        column.addWidget(self.choices)
        column.addWidget(self.list, 1)
        bar = QHBoxLayout()
        for widget in (self.back, self.forth, self.where):
            bar.addWidget(widget)
        bar.addStretch(1)
        bar.addWidget(self.zoom)
        for button, arrow in ((self.back, Qt.ArrowType.LeftArrow), (self.forth, Qt.ArrowType.RightArrow)):
            button.setArrowType(arrow)
            button.setMinimumSize(round(TARGET), round(TARGET))
        pages = QVBoxLayout()
        pages.addLayout(bar)
        pages.addWidget(self.view, 1)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(side)
        row.addLayout(pages, 1)
        outer = QVBoxLayout(self)
        outer.addLayout(row, 1)
        outer.addWidget(self.buttons)
        room = self.screen().availableSize()
        self.resize(min(1180, room.width() - 40), min(780, room.height() - 80))
        self.view.setFocus()

    def _connect(self) -> None:
        self.choices.changed.connect(self._choose)
        self.view.turned.connect(self._show_place)
        self.view.zoomed.connect(self._show_zoom)
        self.list.currentRowChanged.connect(self._turn_to_row)
        self.back.clicked.connect(lambda: self.view.turn_to(self.view.index - 1))
        self.forth.clicked.connect(lambda: self.view.turn_to(self.view.index + 1))
        self.zoom.activated.connect(lambda row: self.view.set_zoom(ZOOMS[row]))
        self.print_button.clicked.connect(self.print_out)
        self.save_button.clicked.connect(self.save)
        self.buttons.rejected.connect(self.reject)
        for keys, slot in (
            (QKeySequence.StandardKey.Print, self.print_out),
            (QKeySequence.StandardKey.Save, self.save),
        ):
            QShortcut(QKeySequence(keys), self, slot)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
            self._lay_out_anew()  # in the words and units that are now
        super().changeEvent(event)

    def _retranslate(self) -> None:
        title = one_line(self._sheet.plan.title) or self.tr("Untitled")
        self.setWindowTitle(self.tr("Print {0}").format(title))
        call(self.view, self.tr("Page"))
        call(self.list, self.tr("Pages"))
        call(self.zoom, self.tr("How large pages are seen"))
        call(self.back, self.tr("Page before"))
        call(self.forth, self.tr("Next page"))
        self.back.setToolTip(self.tr("Page before (Page Up)"))
        self.forth.setToolTip(self.tr("Next page (Page Down)"))
        self.print_button.setText(self.tr("&Print…"))
        self.save_button.setText(self.tr("&Save as PDF…"))
        self.zoom.clear()
        for zoom in ZOOMS:
            self.zoom.addItem(self._zoom_words(zoom))
        self._show_zoom()

    def _zoom_words(self, zoom: Zoom) -> str:
        if zoom == "page":
            return self.tr("Whole page")
        if zoom == "width":
            return self.tr("Page width")
        return self.tr("{0} %").format(round(100.0 * float(zoom)))

    # -- pages ---------------------------------------------------------------------------------------------

    @property
    def pages(self) -> tuple[Page, ...]:
        """All pages that are laid out so far."""
        return tuple(page for pages in self._ready.values() for page in pages)

    @property
    def is_laid_out(self) -> bool:
        """Whether all pages are there."""
        return not self._waiting

    def _choose(self) -> None:
        self._preferences.remember_print_choices(self.choices.choices)
        self._lay_out_anew()

    def _lay_out_anew(self) -> None:
        self._waiting = list(wanted_sheets(self.choices.choices))
        self._ready = {}
        self._next.start()
        if not self._waiting:
            self._show_pages()

    def _lay_out_a_sheet(self) -> None:
        if not self._waiting:
            return
        sheet = self._waiting.pop(0)
        with lent_font():
            self._ready[sheet.key] = sheet.pages(self._sheet, self.choices.choices)
        if self._waiting:
            self._next.start()
        self._show_pages()

    def _show_pages(self) -> None:
        self.choices.show_counts({key: len(pages) for key, pages in self._ready.items()})
        with QSignalBlocker(self.list):
            self.list.clear()
            self.list.addItems([page.name for page in self.pages])
        self.view.show_pages(self.pages)
        for button in (self.print_button, self.save_button):
            button.setEnabled(self.is_laid_out and bool(self.pages))

    def _show_place(self, index: int) -> None:
        pages = self.pages
        with QSignalBlocker(self.list):
            self.list.setCurrentRow(index if pages else -1)
        self.back.setEnabled(index > 0)
        self.forth.setEnabled(index + 1 < len(pages))
        self.where.show_text(
            self.tr("Page {0} of {1}").format(index + 1, len(pages)) if pages else self.tr("No page")
        )

    def _turn_to_row(self, row: int) -> None:
        if row >= 0:
            self.view.turn_to(row)

    def _show_zoom(self) -> None:
        zoom = self.view.zoom
        if zoom in ZOOMS:
            self.zoom.setCurrentIndex(ZOOMS.index(zoom))
        else:
            self.zoom.setCurrentIndex(-1)
            self.zoom.setPlaceholderText(self._zoom_words(self.view.factor))

    # -- printing ------------------------------------------------------------------------------------------

    def save(self) -> None:
        """Ask for a file and write the pages to it."""
        if not self.save_button.isEnabled():
            return
        dialog = QFileDialog(self, self.tr("Save as PDF"), str(self._preferences.folder))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setNameFilter(self.tr("Sheets to print (*{0})").format(".pdf"))
        dialog.setDefaultSuffix("pdf")
        dialog.selectFile(f"{self._stem}.pdf")
        if not dialog.exec():
            return
        self.save_to(Path(dialog.selectedFiles()[0]))

    def save_to(self, path: Path) -> None:
        """Write the pages to a PDF."""
        title, pages = self._sheet.plan.title, self.pages
        try:
            with progress(self, self.tr("Writing pages…"), len(pages)) as go_on:
                is_whole = save_pdf(pages, title, path, go_on)
        except RovingLayError as error:
            self._complain(self.tr("Nothing was saved"), error)
            return
        if is_whole:
            self._preferences.remember_folder(path.parent)
            self.said.emit(self.tr("Saved to {0}").format(one_line(str(path), _LONGEST_PATH)))
        else:
            self.said.emit(self.tr("Stopped; nothing was saved"))

    def print_out(self) -> None:
        """Ask for a printer and print the pages."""
        if not self.print_button.isEnabled():
            return
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        set_up(printer, self.pages, one_line(self._sheet.plan.title) or self.tr("Untitled"))
        dialog = QPrintDialog(printer, self)
        dialog.setMinMax(1, len(self.pages))
        dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
        if not dialog.exec():
            return
        pages = chosen_pages(printer, self.pages)
        if not self._accepts_edge(cuts_off(printer)):
            return
        try:
            with progress(self, self.tr("Printing pages…"), len(pages)) as go_on:
                is_whole = print_pages(printer, pages, go_on)
        except RovingLayError as error:
            self._complain(self.tr("Nothing was printed"), error)
            return
        if is_whole:
            self.said.emit(self.tr("Pages sent to the printer: {0}").format(len(pages)))
        else:
            self.said.emit(self.tr("Printing was stopped"))

    def _accepts_edge(self, edge_mm: float | None) -> bool:
        """Ask whether to print although the printer leaves more of the edge white than the pages do."""
        if edge_mm is None:
            return True
        answer = ask(
            self,
            self.tr("Print?"),
            self.tr("This printer leaves {0} mm white at an edge, and pages are cut there. Print?").format(
                shown_number_briefly(edge_mm, 1)
            ),
            Button.Yes | Button.Cancel,
            Button.Cancel,
            QMessageBox.Icon.Warning,
            yes=self.tr("&Print"),
        )
        return answer == Button.Yes

    def _complain(self, title: str, error: RovingLayError) -> None:
        tell(self, title, f"{title}. {refusal(error)}")
