"""The timetable: when what is done, and what to mind at each step.

The rule of this module: with a start typed, every step has its times; without one, lines to write them on. A
caution stands at the step where its danger is.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.timetable import TimedStep
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.blocks import (
    HEADING_PT,
    TICK_MM,
    Block,
    in_pages,
    largest_pt,
    line_to_write_on,
    on_one_line,
    rule,
    space,
    stacked,
    text,
    tick_box,
)
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Box, Mark, Page, Rule, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.sheet_head import page_name, sheet_head
from studio_gui.drawing.sheets.type import line_mm, width_mm
from studio_gui.wording.times import shown_duration, shown_time
from studio_gui.wording.translation import translate
from studio_gui.wording.work_words import safety_words, step_name, step_words

_LEFT_MM = TICK_MM + 4.0
_GAP_MM = 4.0
#: Width of a time to write down, mm.
_BLANK_MM = 26.0
#: Above and below a step, at least and at most, mm.
_SPACE_MM = (3.0, 6.0)


def timetable_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the timetable from soaking to dry wool."""
    paper = choices.paper.portrait()
    inner = paper.inset(MARGIN_MM)
    title = translate("Sheets", "Timetable")
    top = stacked([sheet_head(sheet, title, inner.width), space(3.0)])
    start = sheet.plan.timetable.start_min
    start_line = _start(start, inner.width)
    safety = stacked([space(2.0), text(safety_words(), inner.width, bold=True)])
    room, least = inner.height - top.height, _SPACE_MM[0]
    steps = list(_steps(sheet, inner.width, least))
    spare = room - sum(block.height for block in (start_line, *steps, safety))
    if spare > 0.0:  # what one page leaves over goes between the steps
        steps = list(_steps(sheet, inner.width, min(least + spare / len(steps) / 2.0, _SPACE_MM[1])))
    pages = in_pages([start_line, *steps, safety], room)
    return tuple(
        Page(
            paper,
            stacked([top, *some]).at(inner.x, inner.y),
            page_name(title, number, len(pages)),
        )
        for number, some in enumerate(pages, start=1)
    )


def _start(start_min: float | None, width: float) -> Block:
    """Return a line for the start while it is open; with a start typed, its time stands at the first step."""
    if start_min is not None:
        return space(0.0)
    line = line_to_write_on(translate("Timetable", "Start"), width / 2.0, HEADING_PT)
    return stacked([line, space(1.0), rule(width, 0.2)])


def _steps(sheet: Worksheet, width: float, around: float) -> Iterator[Block]:
    """Yield the steps, each with so much space above and below."""
    is_open = sheet.plan.timetable.start_min is None
    durations = [shown_duration(one.minutes) for one in sheet.timed_steps]
    names = [step_name(one.step) for one in sheet.timed_steps]
    name_width = min(max(width_mm(name, HEADING_PT, bold=True) for name in names), width * 0.3)
    duration_width = max(width_mm(words, HEADING_PT) for words in durations)
    for one, name, duration in zip(sheet.timed_steps, names, durations, strict=True):
        height = line_mm(HEADING_PT)
        x = _LEFT_MM
        size = largest_pt(name, name_width, HEADING_PT, bold=True)
        said = on_one_line(name, name_width, size, bold=True)
        marks: list[Mark] = [Words(Box(x, 0.0, name_width, height), (said,), size, bold=True)]
        x += name_width + _GAP_MM
        marks.append(Words(Box(x, 0.0, duration_width, height), (duration,), HEADING_PT, align="right"))
        x += duration_width + 2.0 * _GAP_MM
        times = _blanks(width - x) if is_open else _times(one, width - x)
        line = Block(height, (*marks, *times.at(x, 0.0)))
        words = text(step_words(sheet, one.step), width - _LEFT_MM)
        body = stacked([line, Block(words.height, words.at(_LEFT_MM, 0.0))])
        yield stacked(
            [
                space(around),
                Block(max(body.height, TICK_MM), (tick_box(0.0, 0.0), *body.marks)),
                space(around),
                rule(width, 0.2),
            ]
        )


def _times(one: TimedStep, width: float) -> Block:
    words = translate("Timetable", "{begins} to {ends}").format(
        begins=shown_time(one.begins_min), ends=shown_time(one.ends_min)
    )
    size = largest_pt(words, width, HEADING_PT, bold=True)
    said = (on_one_line(words, width, size, bold=True),)
    height = line_mm(HEADING_PT)
    return Block(height, (Words(Box(0.0, 0.0, width, height), said, size, True, "right"),))


def _blanks(width: float) -> Block:
    """Return two lines to write times on, "to" between them."""
    height, words = line_mm(HEADING_PT), translate("Timetable", "to")
    between = width_mm(words, HEADING_PT)
    blank = min(_BLANK_MM, (width - between) / 2.0 - 3.0)
    x, foot = width - 2.0 * blank - between - 6.0, height * 0.82
    return Block(
        height,
        (
            Rule(x, foot, x + blank, foot, 0.25),
            Words(Box(x + blank + 3.0, 0.0, between, height), (words,), HEADING_PT),
            Rule(width - blank, foot, width, foot, 0.25),
        ),
    )
