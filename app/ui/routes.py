"""Every address of the app and the screen behind it, each loaded when it is first asked for.

In a browser that is most of what a start takes; `load_next` loads the others while nobody waits.
"""
from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib import import_module

import flet as ft

from app.actions.people import Role, current_person, current_role
from app.storage import people
from app.storage.people import Trains
from app.ui.shell.pin_gate import LOCKED
from app.ui.shell.shell import LINKS, Shell

Screen = Callable[..., ft.Control]

#: The first word of an address → module and name of its screen. What stands after it, such as an id: `route_id`.
SCREENS: Mapping[str, tuple[str, str]] = {
    "today": ("client.today.today_screen", "TodayScreen"),
    "check-in": ("client.check_in.check_in_screen", "CheckInScreen"),
    "play": ("client.player.play_screen", "PlayScreen"),
    "afterwards": ("client.diary.afterwards_screen", "AfterwardsScreen"),
    "diary": ("client.diary.diary_screen", "DiaryScreen"),
    "plan": ("client.today.plan_screen", "PlanScreen"),
    "send": ("client.send.send_screen", "SendScreen"),
    "settings": ("client.settings.settings_screen", "SettingsScreen"),
    "programme": ("client.send.programme_screen", "ProgrammeScreen"),
    "get": ("client.send.programme_screen", "ProgrammeScreen"),
    "key": ("client.send.programme_screen", "ProgrammeScreen"),
    "checks": ("client.checks.checks_screen", "ChecksScreen"),
    "note": ("client.diary.note_screen", "NoteScreen"),
    "why": ("why_screen", "WhyScreen"),
    "yes": ("client.today.yes_screen", "YesScreen"),
    "who": ("client.profile.who_screen", "WhoScreen"),
    "unlock": ("client.profile.unlock_screen", "UnlockScreen"),
    "welcome": ("client.profile.welcome_screen", "WelcomeScreen"),
    "desk": ("coach.attention.desk_screen", "DeskScreen"),
    "people": ("coach.people_screen", "PeopleScreen"),
    "person": ("coach.person.person_screen", "PersonScreen"),
    "publish": ("coach.publish.publish_screen", "PublishScreen"),
}
#: Shown without anybody having been welcomed.
OPEN_TO_ALL = frozenset({"welcome", "who", "settings", "why"})
COACH_SIDE = frozenset({"desk", "people", "person", "publish", "settings", "welcome"})


def parts_of(route: str) -> list[str]:
    """`/people/abc?x` as ["people", "abc"]; a native app's own link, `saltmarsh://programme`, as ["programme"]."""
    return [part for part in route.split("?")[0].split("://")[-1].split("/") if part]


@cache
def screen_named(first: str) -> Screen:
    """The screen behind the first word of an address, loaded if it is not yet.

    Raises:
        KeyError: there is none.
    """
    module, name = SCREENS[first]
    screen: Screen = getattr(import_module(f"app.ui.{module}"), name)
    return screen


def load_next() -> Iterator[str]:
    """Loads one screen for each step, in the order in which they are likely to be wanted; gives the word of each."""
    for first in SCREENS:
        screen_named(first)
        yield first


def home_for(shell: Shell) -> str:
    """Where this device starts: the desk, today's card, the question who is here, or the welcome."""
    role = current_role(shell.store)
    if role is Role.COACH:
        return "desk"
    if role and current_person(shell.store):
        return "today"
    with shell.store.read() as db:
        return "who" if people.people(db, Trains.HERE) else "welcome"


def asks_somebody(route: str) -> bool:
    """Whether a page asks for the answers of one person. The player does not count: whoever wants to stop, stops."""
    first = (parts_of(route) or [""])[0]
    return first in SCREENS and first not in OPEN_TO_ALL | COACH_SIDE | LINKS | {"play"}


def shown_for(route: str, shell: Shell) -> str:
    """The first word of the address that is shown; where that is nobody's yet or unknown, the start's."""
    first = (parts_of(route) or [""])[0]
    if first not in SCREENS or first == LOCKED:
        return home_for(shell)
    if first in OPEN_TO_ALL or (first in COACH_SIDE | LINKS and current_role(shell.store) is Role.COACH):
        return first
    return first if first not in COACH_SIDE and current_person(shell.store) else home_for(shell)
