"""Every address of the app and the screen behind it."""
from __future__ import annotations

from collections.abc import Callable, Mapping

import flet as ft

from app.actions.people import Role, current_person, current_role
from app.storage import people
from app.storage.people import Trains
from app.ui.client.afterwards import AfterwardsScreen
from app.ui.client.check_in import CheckInScreen
from app.ui.client.checks import ChecksScreen
from app.ui.client.diary import DiaryScreen
from app.ui.client.note import NoteScreen
from app.ui.client.plan import PlanScreen
from app.ui.client.play import PlayScreen
from app.ui.client.programme import ProgrammeScreen
from app.ui.client.send import SendScreen
from app.ui.client.settings import SettingsScreen
from app.ui.client.today import TodayScreen
from app.ui.client.welcome import WelcomeScreen
from app.ui.client.who import WhoScreen
from app.ui.client.yes import YesScreen
from app.ui.coach.desk import DeskScreen
from app.ui.coach.people import PeopleScreen
from app.ui.coach.person import PersonScreen
from app.ui.coach.publish import PublishScreen
from app.ui.shell import Shell
from app.ui.why import WhyScreen

Screen = Callable[..., ft.Control]

#: The first word of an address → its screen. What stands after it, such as an id: `route_id`.
SCREENS: Mapping[str, Screen] = {
    "welcome": WelcomeScreen,
    "who": WhoScreen,
    "today": TodayScreen,
    "check-in": CheckInScreen,
    "play": PlayScreen,
    "afterwards": AfterwardsScreen,
    "diary": DiaryScreen,
    "plan": PlanScreen,
    "send": SendScreen,
    "settings": SettingsScreen,
    "programme": ProgrammeScreen,
    "checks": ChecksScreen,
    "note": NoteScreen,
    "why": WhyScreen,
    "yes": YesScreen,
    "desk": DeskScreen,
    "people": PeopleScreen,
    "person": PersonScreen,
    "publish": PublishScreen,
}
#: Shown without anybody having been welcomed.
OPEN_TO_ALL = frozenset({"welcome", "who", "settings", "why"})
COACH_SIDE = frozenset({"desk", "people", "person", "publish", "settings", "welcome"})


def parts_of(route: str) -> list[str]:
    """`/people/abc?x` as ["people", "abc"]."""
    return [part for part in route.split("?")[0].split("/") if part]


def home_for(shell: Shell) -> Screen:
    """Where this device starts: the desk, today's card, the question who is here, or the welcome."""
    role = current_role(shell.store)
    if role is Role.COACH:
        return DeskScreen
    if role and current_person(shell.store):
        return TodayScreen
    with shell.store.read() as db:
        return WhoScreen if people.people(db, Trains.HERE) else WelcomeScreen


def screen_for(route: str, shell: Shell) -> Screen:
    """The screen behind an address; where that is nobody's yet or unknown, the start."""
    first = (parts_of(route) or [""])[0]
    screen = SCREENS.get(first)
    if screen is None:
        return home_for(shell)
    if first in OPEN_TO_ALL or (first in COACH_SIDE and current_role(shell.store) is Role.COACH):
        return screen
    return screen if first not in COACH_SIDE and current_person(shell.store) else home_for(shell)
