"""The sheets of the gallery: every part with words as long as real ones."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.domain.model.body import Region, Spot
from app.ui.parts import AnswerOption, Card, Destination, Look, Nav, options
from app.ui.parts.body_list import BodyPicker, BodyShownAs
from app.ui.parts.chart import Bar, LineStroke, Series, line_chart, spark_line, week_bars
from app.ui.parts.count_panel import Phase, count_panel
from app.ui.parts.strip_rows import row_now, thread_now
from app.ui.parts.time_strip import plan_strip, review_strip
from tests.ui import samples
from tests.ui.gallery_figures import figures

Tell = Callable[[Any], None]
CLIENT = (
    Destination("today", "Today"), Destination("diary", "Diary"), Destination("plan", "Plan"),
    Destination("send", "Send"),
)
DESK = (
    Destination("desk", "Desk"), Destination("people", "People"), Destination("programmes", "Programmes"),
    Destination("publish", "Publish"),
)


def buttons(c: Card, tell: Tell, told: str) -> ft.Control:
    nav = Nav(CLIENT, "today", tell, "Evenload")
    press = lambda e: tell("pressed")  # noqa: E731
    return c.page([
        c.soft("Ines’s programme"),
        c.title("Legs and back"),
        c.lead("22 minutes, 6 exercises, kit: a chair"),
        c.body(f"Told: {told}"),
        c.head("Buttons", "of every look"),
        c.button("Not today", press, icon=ft.Icons.SCHEDULE_SHARP),
        c.button("Continue", press, look=Look.SOLID),
        c.button("Not yet", None),
        c.harm_button("That hurts", press, ft.Icons.PAN_TOOL_SHARP),
        c.side_by_side([c.small_button(w, press, name=f"{w}: Tomas Verrey") for w in ("Seen", "Called", "Later")]),
        c.link("Why is it shorter today?", press),
        c.band("Easier:", "both heels together, hand on the back of the chair", ft.Icons.SOUTH_SHARP, press),
        c.head("Changed today", icon=ft.Icons.TUNE_SHARP),
        c.reason("2 rounds, not 3", "You slept 2 of 5."),
        c.reason("Push from a wall, not the knees", "You asked to go easy on the right wrist."),
        c.head("Notices"),
        c.notice("This file was damaged on its way.", "Nothing was changed.", "Ask Ines to send it again.",
                 [c.small_button("Choose another file", press)]),
        c.note("Ines does not see this until you send your diary."),
        c.empty("No sessions yet", "What you do shows here, day by day.", [c.button("Go to Today", press)]),
        c.harm_box(c.stack([c.subhead("Needs a call, 1"), c.row("Odile Brandt",
                                                                "Stopped: light-headed, standing", press)])),
        c.box(c.rows([c.row("Lena Corvo", "Nothing done for 15 days", press, trailing="3 a week"),
                      c.row("Aro Mettler", "Nothing sent for 3 weeks", press)])),
        c.fact("Minutes", "22"),
        c.side_by_side([c.tag("Left"), c.tag("Right next")]),
    ], [c.main_button("Start", press, ft.Icons.PLAY_ARROW_SHARP)], nav)


def choices(c: Card, tell: Tell, told: str) -> ft.Control:
    nav = Nav(DESK, "programmes", tell, "Evenload")
    return c.page([
        c.title("Anything new or worrying today?"),
        c.yes_no("Anything new or worrying", told == "True", tell),
        c.head("Where are you?"),
        c.one_of(options(("home", "Home"), ("hotel", "Hotel room"), ("garage", "Garage"), ("new", "Somewhere else")),
                 told or "home", tell),
        c.head("What brings you here?"),
        c.one_of_list((AnswerOption("train", "I want to train", "Sessions from a coach, on this device"),
                       AnswerOption("help", "I help someone who trains"), AnswerOption("coach", "I coach")),
                       told or "train", tell),
        c.head("What do you have?"),
        c.several_of(options(("chair", "Chair"), ("wall", "Wall"), ("dumbbell", "Dumbbells"),
                             ("band", "Resistance band"), ("mat", "Mat")), {"chair", told}, tell),
        c.several_of_list((AnswerOption("bp", "High blood pressure", "Even if tablets keep it normal"),
                           AnswerOption("ost", "Osteoporosis")), {"ost", told}, tell),
        c.head("Right knee, how much?"),
        c.aside(c.scale_0_10("Right knee", int(told) if told.isdigit() else 3, tell,
                             ("none", "makes me stop now and then", "the worst I can imagine"))),
        c.head("How did you sleep, and how are you now?"),
        c.scale_1_5("Slept", "badly", "well", 2, tell),
        c.scale_1_5("Energy", "low", "high", 3, tell),
        c.scale_1_5("Settled", "not at all", "very", None, tell),
        c.head("You"),
        c.field("Your name", "", tell),
        c.field("Year of birth", "19", tell, error="Four figures, like 1949"),
        c.field("Note", "", tell, lines=3, hint="Anything that Ines should know"),
    ], [c.button("Done", lambda e: tell("done"), look=Look.SOLID)], nav)


def strips(c: Card, tell: Tell, told: str) -> ft.Control:
    wide = c.room()
    plan, long, short = samples.circuit(), samples.many_short(), samples.two_steps()
    moments = (0, 275_000, plan.total_ms * 3 // 5, plan.total_ms)
    return c.page([
        c.title("Strips"),
        c.lead("22 minutes, 6 exercises, kit: a chair"),
        plan_strip(c, plan, wide),
        c.head("Now"),
        *(draw(c, plan, ms, wide) for draw in (row_now, thread_now) for ms in moments),
        c.head("Last sessions"),
        c.caption("Above: planned. Below, in ink: done. Low = easier, dotted = left out, double bar = stopped."),
        review_strip(c, plan, samples.all_done(plan), wide),
        review_strip(c, plan, samples.mixed(plan), wide),
        review_strip(c, plan, samples.stopped(plan), wide),
        c.head("Odd ones"),
        plan_strip(c, short, wide, span_ms=plan.total_ms),
        plan_strip(c, short, wide),
        plan_strip(c, long, wide),
        row_now(c, long, 2_000_000, wide),
        plan_strip(c, samples.nothing(), wide),
        review_strip(c, samples.nothing(), (), wide),
    ])


def counts(c: Card, tell: Tell, told: str) -> ft.Control:
    wide = c.room()
    return c.page([
        count_panel(c, Phase.WORK, "Work", "28", wide, aside="round 2 of 2"),
        count_panel(c, Phase.REST, "Rest", "12", wide, aside="round 2 of 2", foot="Then: push away from a wall"),
        count_panel(c, Phase.SETUP, "Get ready", "1:20", wide, aside="chair against the wall"),
        count_panel(c, Phase.WAIT, "Paused", "28", wide, aside="round 2 of 2", tallest=110),
        count_panel(c, Phase.WORK, "Work", "128", wide),
    ])


def charts(c: Card, tell: Tell, told: str) -> ft.Control:
    wide = c.room()
    knee = Series("Right knee", (2, 2, 3, None, None, 3, 4, 3, 4, 5, 5, 6))
    back = Series("Back", (1, None, 1, 2, 1, None, 0, 1, 1, 2, 5, 5), LineStroke.WORK)
    target = Series("Meant", (5, 5, 5, 5, 6, 6, 6, 6, 7, 7, 7, 7), LineStroke.DASHED)
    weeks = tuple(Bar(f"{d} Nov", v, 60 if d > 8 else None) for d, v in ((1, 0), (8, 35), (15, 62.5), (22, 80)))
    many = tuple(Bar(str(n), 20 + n * 7 % 50) for n in range(1, 27))
    ends = {"since": "6 weeks ago", "until": "today"}
    return c.page([
        c.title("Charts"),
        line_chart(c, [knee], wide, guide=4, **ends),
        line_chart(c, [knee, back, target], wide, **ends),
        line_chart(c, [Series("Left hip", (None, None, 4))], wide, **ends),
        line_chart(c, [Series("Left hip", (None, None))], wide, **ends),
        c.head("Minutes a week"),
        week_bars(c, weeks, wide, unit="minutes"),
        week_bars(c, many, wide, unit="minutes"),
        week_bars(c, (), wide, unit="minutes", empty="No sessions in these weeks."),
        ft.Row([spark_line(c, knee.values, spoken="Right knee, 2 to 6"), c.body("Right knee, 2 to 6 in six weeks")]),
    ])


@ft.component
def Body(c: Card) -> ft.Control:
    """Two pickers that share their answers."""
    levels, set_levels = ft.use_state({Spot(Region.KNEE, "right"): 6})
    ends = ("none", "makes me stop now and then", "the worst I can imagine")
    return c.stack([
        c.title("Does anything hurt in a joint?"),
        BodyPicker(c, levels, set_levels, ends),
        c.head("The same on a picture"),
        BodyPicker(c, levels, set_levels, ends, BodyShownAs.BEHIND),
    ])


def body(c: Card, tell: Tell, told: str) -> ft.Control:
    return c.page([Body(c)])


SHEETS: dict[str, Callable[[Card, Tell, str], ft.Control]] = {
    "buttons": buttons, "choices": choices, "strips": strips,
    "counts": counts, "charts": charts, "body": body,
    "figures": figures,
}
