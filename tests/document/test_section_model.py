"""If these fail, the table shows other figures than the worksheet, or repaints what did not change."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import QPersistentModelIndex, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QAbstractItemModelTester

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.row_model import SATURATION_ROLE
from studio_gui.document.section_model import SectionModel
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.boundaries import move_boundary, reverse
from studio_gui.domain.edits.inputs import set_fibre, set_liquid
from studio_gui.domain.edits.sections import change_section, merge, set_locked, split
from studio_gui.domain.edits.stocks import change_stock
from tests.document.heard import Announced
from tests.document.settling import preview_and_wait

Role = Qt.ItemDataRole


@pytest.fixture
def model(document: OpenPlan) -> SectionModel:
    return SectionModel(document)


def shown(model: SectionModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in range(len(Column))]


def typed(model: SectionModel, row: int, column: Column, text: str) -> bool:
    return model.setData(model.index(row, column), text)


def fixed_ml(model: SectionModel) -> float | None:
    return model.document.plan.sections[0].fixed_ml


def undo_text(model: SectionModel) -> str:
    return model.document.undo_stack.undoText()


# -- showing -------------------------------------------------------------------------------------------------


def test_rows_show_the_worksheet_with_fixed_decimals(model: SectionModel) -> None:
    # 25 g at 2.5 ml/g: 62.5 ml, of which 30 in 50 parts are 1 % stock: depth 1.5 %; acid 2.5 ml/g of 1 %
    assert shown(model, 1) == [
        *("B", "Section 2", "100.0", "200.0", "100.0", "25.0", "62.5", "62.5", "2.50", "0.25", "2.50"),
        *("", "", "", ""),
    ]
    assert shown(model, 0)[Column.DEPTH] == "1.50"


def test_ml_per_roving_is_a_share_of_the_set(model: SectionModel) -> None:
    model.document.edit("", partial(set_fibre, rovings=4))
    assert (shown(model, 0)[Column.LIQUID], shown(model, 0)[Column.PER_ROVING]) == ("250.0", "62.5")


def test_unknown_acid_is_no_number(model: SectionModel) -> None:
    model.document.edit("", partial(change_stock, stock_id="k2", acid_g_per_l=None))
    assert shown(model, 2)[Column.ACID] == "–"
    assert shown(model, 0)[Column.ACID] == "2.50"


@pytest.mark.parametrize(
    ("fixed_ml", "saturation", "words"),
    [(100.0, "over", "25.0 ml over"), (20.0, "under", "dry core"), (50.0, "in range", "")],
)
def test_the_state_is_said_in_words_only_where_it_is_wrong(
    model: SectionModel, fixed_ml: float, saturation: str, words: str
) -> None:
    model.document.edit("", partial(change_section, section_id="s1", fixed_ml=fixed_ml))
    state = model.index(0, Column.STATE)
    assert (state.data(SATURATION_ROLE), state.data()) == (saturation, words)
    assert state.data(Role.AccessibleTextRole), "a screen reader is told in every state"


def test_the_swatch_is_the_predicted_colour(model: SectionModel) -> None:
    colour = model.index(0, Column.LETTER).data(Role.DecorationRole)
    assert isinstance(colour, QColor)
    assert [colour.redF(), colour.greenF(), colour.blueF()] == pytest.approx(
        model.document.sheet.colours.srgb[0].tolist(), abs=1e-3
    )


def test_figures_stand_on_the_right_and_so_do_their_headings(model: SectionModel) -> None:
    for column in Column:
        heading = Qt.AlignmentFlag(
            model.headerData(column, Qt.Orientation.Horizontal, Role.TextAlignmentRole)
        )
        is_right = bool(heading & Qt.AlignmentFlag.AlignRight)
        assert is_right == (Column.FROM <= column <= Column.ACID or column in (Column.WIPED, Column.GAP))
        assert is_right == (model.index(0, column).data(Role.TextAlignmentRole) is not None)


def test_only_what_can_be_typed_is_editable(model: SectionModel) -> None:
    def editable(row: int) -> set[Column]:
        cells = ((column, model.index(row, column)) for column in Column)
        return {column for column, cell in cells if model.flags(cell) & Qt.ItemFlag.ItemIsEditable}

    figures = {Column.FIBRE, Column.DEPTH, Column.ACID, Column.STATE, Column.LOCKED}
    assert editable(1) == set(Column) - figures
    assert editable(0) == editable(1) - {Column.FROM}, "the lay starts where it starts"
    assert editable(3) == editable(1) - {Column.TO, Column.GAP}, "and ends where it ends"


# -- announcing ----------------------------------------------------------------------------------------------


def test_a_traded_boundary_announces_its_two_neighbours(model: SectionModel) -> None:
    announced = Announced(model)
    model.document.preview(move_boundary(model.document.plan, 1, 2.2))
    assert announced.rows == [(1, 1), (2, 2)]
    assert announced.layouts == 0
    assert (shown(model, 1)[Column.LENGTH], shown(model, 2)[Column.LENGTH]) == ("120.0", "80.0")


def test_rows_apart_are_announced_apart(model: SectionModel) -> None:
    announced = Announced(model)
    model.document.edit("", partial(change_stock, stock_id="k1", strength_g_per_l=11.0))
    assert announced.rows == [(0, 1), (3, 3)], "the red section has none of it"


def test_what_shows_the_same_is_not_announced(model: SectionModel) -> None:
    announced = Announced(model)
    model.document.edit("", lambda plan: replace(plan, title="Other", wicking_mm=25.0))
    model.document.edit("", partial(move_boundary, index=1, position_m=2.0 + 1e-13))
    assert announced.rows == []
    assert announced.layouts == 0


def test_sections_that_come_or_go_change_the_layout(model: SectionModel) -> None:
    announced = Announced(model)
    model.document.edit("", partial(split, index=1, position_m=1.5))
    assert (model.rowCount(), announced.layouts) == (5, 1)
    model.document.undo_stack.undo()
    assert (model.rowCount(), announced.layouts) == (4, 2)


def test_a_kept_index_follows_its_section_and_dies_with_it(model: SectionModel) -> None:
    third, last = (QPersistentModelIndex(model.index(row, Column.NAME)) for row in (2, 3))
    model.document.edit("", partial(merge, first=0, last=1))
    assert (third.row(), third.data(), last.row()) == (1, "Section 3", 2)
    model.document.edit("", reverse)
    assert (third.row(), last.row()) == (1, 0)
    model.document.edit("", partial(merge, first=0, last=1))
    assert [third.isValid(), last.isValid()] == [False, True]


@pytest.mark.parametrize("first_rows", [1, 4])
def test_the_table_keeps_the_rules_of_qt(model: SectionModel, first_rows: int) -> None:
    document = model.document
    if first_rows == 1:
        document.edit("", partial(merge, first=0, last=3))
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Warning)
    document.edit("", partial(split, index=0, position_m=0.5))
    document.preview(move_boundary(document.plan, 0, 0.7))
    document.commit_preview("")
    document.edit("", reverse)
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert tester.model() is model


# -- typing --------------------------------------------------------------------------------------------------


def test_a_typed_name_is_one_step(model: SectionModel) -> None:
    assert typed(model, 0, Column.NAME, "Tideline")
    assert (shown(model, 0)[Column.NAME], undo_text(model)) == ("Tideline", "Rename section")


@pytest.mark.parametrize(("text", "length_m"), [("80", 0.8), ("0,8 m", 0.8), ("10 in", 0.254)])
def test_a_typed_length_moves_the_end_of_the_section(model: SectionModel, text: str, length_m: float) -> None:
    assert typed(model, 0, Column.LENGTH, text)
    assert model.document.plan.boundaries[0].position_m == pytest.approx(length_m)
    assert undo_text(model) == "Set length"


def test_typed_ml_are_fixed_and_follow_lets_them_go(model: SectionModel) -> None:
    liquid = model.index(0, Column.LIQUID)
    assert liquid.data(Role.FontRole) is None
    typed(model, 0, Column.LIQUID, "50")
    assert fixed_ml(model) == 50.0
    assert liquid.data(Role.FontRole).bold(), "a fixed amount is told apart"
    for text in ("follow", ""):
        typed(model, 0, Column.LIQUID, text)
        assert fixed_ml(model) is None
        model.document.undo_stack.undo()
    assert undo_text(model) == "Fix liquid"


@pytest.mark.parametrize(("column", "place"), [(Column.FROM, 0), (Column.TO, 1)])
def test_a_typed_place_moves_the_boundary_there(model: SectionModel, column: Column, place: int) -> None:
    before = model.document.plan.edges_m
    assert typed(model, 1, column, "130 cm")
    edges = list(before)
    edges[place + 1] = 1.3
    assert model.document.plan.edges_m == pytest.approx(tuple(edges))
    assert undo_text(model) == "Move boundary"


def test_ml_for_each_gram_or_each_roving_fix_the_liquid(model: SectionModel) -> None:
    model.document.edit("", partial(set_fibre, rovings=4))
    typed(model, 0, Column.APPLIED, "1.4")
    assert fixed_ml(model) == pytest.approx(140.0), "100 g in four rovings"
    typed(model, 0, Column.PER_ROVING, "12,5 ml")
    assert fixed_ml(model) == pytest.approx(50.0)
    typed(model, 0, Column.APPLIED, "follow")
    assert fixed_ml(model) is None


def test_a_wipe_and_a_gap_are_typed_and_shown_where_there_are_some(model: SectionModel) -> None:
    assert shown(model, 1)[Column.WIPED : Column.LOCKED] == ["", ""]
    typed(model, 1, Column.WIPED, "8")
    typed(model, 1, Column.GAP, "-2 cm")
    assert shown(model, 1)[Column.WIPED : Column.LOCKED] == ["8.0", "-2.0"]
    assert model.document.plan.sections[1].wiped_ml == 8.0
    assert model.document.plan.boundaries[1].gap_m == pytest.approx(-0.02)
    assert model.index(1, Column.GAP).data(Role.EditRole) == "-2.0 cm"


@pytest.mark.parametrize("typed_in", ["q3", "c", " C "])
def test_a_liquor_is_chosen_by_id_or_letter(model: SectionModel, typed_in: str) -> None:
    assert typed(model, 0, Column.LETTER, typed_in)
    assert model.document.plan.sections[0].liquor_id == "q3"
    assert [value for _, value in model.liquor_choices()] == ["q1", "q2", "q3"]


def test_ticking_locks_and_unlocks(model: SectionModel) -> None:
    cell = model.index(1, Column.LOCKED)
    for state, locked in ((Qt.CheckState.Checked, True), (Qt.CheckState.Unchecked, False)):
        assert model.setData(cell, state.value, Role.CheckStateRole)
        assert model.document.plan.sections[1].locked is locked
        assert Qt.CheckState(cell.data(Role.CheckStateRole)) == state


@pytest.mark.parametrize(
    ("column", "text", "code"),
    [
        (Column.LENGTH, "long", "not-a-number"),
        (Column.LENGTH, "3 g", "wrong-kind-of-unit"),
        (Column.LENGTH, "390 cm", "boundary-out-of-range"),
        (Column.LIQUID, "-5", "out-of-range"),
        (Column.LETTER, "Z", "unknown-liquor"),
        (Column.NAME, "x" * 301, "text-too-long"),
        (Column.TO, "3 m", "boundary-out-of-range"),
        (Column.APPLIED, "41", "out-of-range"),
        (Column.WIPED, "some", "not-a-number"),
        (Column.GAP, "2 m", "out-of-range"),
    ],
)
def test_what_is_no_value_is_refused_and_the_old_one_stays(
    model: SectionModel, column: Column, text: str, code: str
) -> None:
    before, announced = model.document.plan, Announced(model)
    assert not typed(model, 0, column, text)
    assert announced.codes == [code]
    assert announced.accepted == 0
    assert model.document.plan is before
    assert model.document.undo_stack.count() == 0


def test_a_locked_neighbour_refuses_a_length(model: SectionModel) -> None:
    model.document.edit("", partial(set_locked, section_ids=("s2",), locked=True))
    announced = Announced(model)
    assert not typed(model, 0, Column.LENGTH, "80")
    assert announced.codes == ["boundary-locked"]


def test_leaving_an_editor_as_it_was_rounds_nothing(model: SectionModel) -> None:
    model.document.edit("", partial(move_boundary, index=0, position_m=1.23456))
    cell = model.index(0, Column.LENGTH)
    assert cell.data(Role.EditRole) == "123.5 cm"
    model.setData(cell, cell.data(Role.EditRole))
    assert model.document.plan.boundaries[0].position_m == 1.23456


def test_figures_cannot_be_typed_over(model: SectionModel) -> None:
    assert not typed(model, 0, Column.DEPTH, "2")
    assert model.document.undo_stack.count() == 0


def test_everything_is_said_anew_in_another_language(model: SectionModel) -> None:
    announced, headings = Announced(model), []
    model.headerDataChanged.connect(lambda *_: headings.append(1))
    model.retranslate()
    assert (announced.rows, len(headings)) == ([(0, 3)], 1)


def test_drier_figures_show_at_once(model: SectionModel) -> None:
    model.document.edit("", partial(set_liquid, uptake_ml_per_g=1.6))
    assert (shown(model, 0)[Column.LIQUID], shown(model, 0)[Column.APPLIED]) == ("40.0", "1.60")


# -- while a boundary is dragged -----------------------------------------------------------------------------


def test_the_sections_beside_a_dragged_boundary_follow_at_once_and_all_others_late(
    model: SectionModel,
) -> None:
    announced = Announced(model)
    document = model.document
    document.preview(move_boundary(document.plan, 0, 0.7, "shift"))
    assert announced.rows == [(0, 0), (1, 1)]
    assert [shown(model, row)[Column.FROM] for row in range(4)] == ["0.0", "70.0", "200.0", "300.0"]
    assert shown(model, 0)[Column.LIQUID] == "43.8"
    preview_and_wait(document, move_boundary(document.plan, 0, 0.8, "shift"))
    assert [shown(model, row)[Column.FROM] for row in range(4)] == ["0.0", "80.0", "180.0", "280.0"]


def test_all_rows_are_right_when_a_drag_ends(model: SectionModel) -> None:
    document = model.document
    document.preview(move_boundary(document.plan, 0, 0.7, "shift"))
    document.commit_preview("")
    assert [shown(model, row) for row in range(4)] == [shown(SectionModel(document), row) for row in range(4)]
    document.preview(move_boundary(document.plan, 1, 1.1, "shift"))
    document.cancel_preview()
    assert [shown(model, row) for row in range(4)] == [shown(SectionModel(document), row) for row in range(4)]


def test_only_the_columns_that_show_something_else_are_announced(model: SectionModel) -> None:
    announced = Announced(model)
    document = model.document
    document.edit("", partial(move_boundary, index=0, position_m=0.7, drag="shift"))
    assert announced.columns == [
        (Column.TO, Column.PER_ROVING),
        (Column.FROM, Column.TO),
        (Column.FROM, Column.PER_ROVING),
    ]
