"""What today forbids is never in the plan, and what stands in is the nearest that today allows."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.compile.posture import depth
from app.domain.compile.stations import Order
from app.domain.compile.substitution import choose, ladder_down
from app.domain.compile.timeline import compile_timeline
from app.domain.dosing.limits import Limits
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Diary, Symptom
from app.domain.model.exercise import Axis, Exercise, Limb, Mode, Option, Pattern, Position, Sides, Space, Support
from app.domain.model.plan import Timeline
from app.domain.model.session import Block, BlockKind, Item, Session
from tests.domain import rulebook
from tests.domain import strategies as own
from tests.domain.compile.test_timeline import exercise
from tests.domain.dosing.test_dose import KNEE, but
from tests.domain.shipped import TODAY, WELL, compiled, effort_ms, efforts, library, shipped
from tests.sampling import examples

BIG = settings(max_examples=examples(50, 3_000))


def assert_allowed(got: Timeline, known: dict[str, Exercise], session: Session, client: Client, room: Place,
                   diary: Diary | None) -> None:
    """Nothing in it is forbidden by the rulebook, and every stand-in is admissible."""
    kit = {k for _, item in session.items() for k in known[item.exercise].equipment}
    for step in efforts(got):
        done = known[step.exercise or ""]
        assert rulebook.forbids(done, client, room, diary, kit, str(step.side)) == []
        if step.written:
            assert rulebook.known(done, client)
            assert not client.same_as_always or client.chosen.get(step.written) == done.id
    written = {item.exercise for _, item in session.items()}
    said = {s.written for s in got.substitutions} | {o.exercise for o in (*got.left_out, *got.one_sided)}
    if got.dose.allows_session:
        for one in written - said:
            bouts = rulebook.bouts_left(known[one], client)
            assert bouts
            assert all(rulebook.forbids(known[one], client, room, diary, kit, bout) == [] for bout in bouts)
    for change in (*got.substitutions, *got.left_out, *got.one_sided):
        assert change.because
    for change in (*got.substitutions, *got.left_out):
        assert ("kit" in change.because) == any(one.startswith("kit:") for one in change.asked)


@BIG
@given(own.diaries | own.mild_diaries, own.bodies, own.rooms, own.session_ids, st.booleans())
def test_nothing_forbidden_is_ever_in_a_shipped_session(diary: Diary, client: Client, room: Place, session_id: str,
                                                        whole: bool) -> None:
    """Caps, kit, floor, noise, space, support, and for someone alone only what was shown or explains itself."""
    got = compiled(session_id, client, room, diary, whole_library=whole)
    session = shipped().session(session_id)
    assert session is not None
    assert_allowed(got, library(), session, client, room, diary)


@BIG
@given(own.diaries | own.mild_diaries, own.bodies, own.rooms, own.small_sessions(), st.booleans())
def test_nothing_forbidden_is_ever_in_any_session(diary: Diary, client: Client, room: Place, small: Any, whole: bool
                                                  ) -> None:
    """However strangely a coach has rated the exercises."""
    session, known = small
    client = replace(client, shown=frozenset("abc"), chosen={"a": "b", "c": "d"} if client.chosen else {})
    got = compile_timeline(Order(session, known, client, room, TODAY, diary, whole_library=whole))
    assert_allowed(got, known, session, client, room, diary)


# ------------------------------------------------------------------ choices by hand

@BIG
@given(own.bodies, own.rooms, own.session_ids, st.data())
def test_a_choice_by_hand_is_honoured_exactly_where_it_is_admissible(client: Client, room: Place, session_id: str,
                                                                     data: st.DataObject) -> None:
    """Where it is not, today's own choice stands."""
    session = shipped().session(session_id)
    assert session is not None
    written = data.draw(st.sampled_from(sorted({i.exercise for b, i in session.items() if not i.load_g})))
    near = [o.to for o in (*library()[written].easier, *library()[written].harder, *library()[written].swaps)]
    chosen = data.draw(st.sampled_from(sorted({*near, *own.IDS[::7]} - {written})))
    client = replace(client, chosen={written: chosen})
    got = compiled(session_id, client, room)
    kit = {k for _, item in session.items() for k in library()[item.exercise].equipment}
    other = library()[chosen]
    able = not rulebook.forbids(other, client, room, WELL, kit) and rulebook.known(other, client)
    two_sided_hold = other.mode == "hold" and other.sides == "each"
    able = able and (not two_sided_hold or library()[written].sides == "each")
    able = able and depth(other) <= depth(library()[written])
    at_hand = kit if room.kit is None and client.kit is None else client.kit if room.kit is None else room.kit
    over = other.position == "on_bed" and library()[written].position in ("standing", "seated") and "chair" in at_hand
    able = able and not over
    able = able and rulebook.works_within(other, library()[written])
    done = {s.to for s in got.substitutions if s.written == written}
    assert (done == {chosen}) if able else (chosen not in done)


def test_alone_a_choice_that_was_never_shown_is_not_honoured() -> None:
    """Not even one's own."""
    a, b = exercise("a"), exercise("b")
    client = Client(alone=True, chosen={"a": "b"})
    got = _plan(client, a, b)
    assert [s.exercise for s in efforts(got)] == ["a", "a"]
    got = _plan(replace(client, shown=frozenset({"b"})), a, b)
    assert [(s.exercise, s.written) for s in efforts(got)] == [("b", "a")] * 2
    assert [s.because for s in got.substitutions] == [("choice",)]


@pytest.mark.parametrize("forbids", ["the choice", "the choice and what was written"])
def test_a_day_that_forbids_a_choice_by_hand_gives_no_more_work_than_it_takes(forbids: str) -> None:
    """Once in place of once for each side: neither what was written nor a stand-in takes longer on the worse day."""
    arm: dict[str, Any] = {"position": Position.SEATED, "loads": (Limb.ARM,), "leans_on": ()}
    deep = {Axis.KNEELING: 2} if forbids != "the choice" else {}
    written = exercise("a", sides=Sides.EACH, demand=deep, easier=(Option("c"),), **arm)
    chosen = exercise("b", demand={Axis.KNEELING: 2}, **{**arm, "loads": (Limb.ARM, Limb.OTHER_ARM)})
    known = (written, chosen, exercise("c", sides=Sides.EACH, **arm))
    free = Client(chosen={"a": "b"})
    good, worse = (_plan(c, *known) for c in (free, replace(free, limits={Axis.KNEELING: 1})))
    assert {s.exercise for s in efforts(good)} == {"b"}
    assert {s.exercise for s in efforts(worse)} == ({"a"} if forbids == "the choice" else {"c"})
    assert 0 < effort_ms(worse) <= effort_ms(good)


def _plan(client: Client, *known: Exercise, room: Place | None = None, diary: Diary | None = WELL) -> Timeline:
    session = Session("s", "S", (Block(BlockKind.CIRCUIT, (Item(known[0].id, work_s=30),), 2, 20),))
    return compile_timeline(Order(session, {e.id: e for e in known}, client, room or Place(), TODAY, diary))


# ------------------------------------------------------------------ worse caps never give more

@st.composite
def worse_caps(draw: st.DrawFn) -> tuple[tuple[Client, Place], tuple[Client, Place]]:
    """(somebody somewhere, the same with one thing more forbidden)."""
    client, room = draw(own.bodies), draw(own.rooms)
    axis, spot = draw(st.sampled_from(Axis)), draw(own.generators.spots)
    kit = client.kit if client.kit is not None else frozenset(own.KIT)
    client = replace(client, kit=kit)
    weights = client.weights_g if client.weights_g is not None else (1000, 2000, 4000)
    client = replace(client, weights_g=weights)
    condition = draw(st.sampled_from(Condition))
    if condition is Condition.WHEELCHAIR:
        # who sits in one has a seat at hand, which is not less
        client = replace(client, kit=kit | {"chair"})
    fewer = [
        (replace(client, limits={**client.limits, axis: draw(st.integers(0, client.limits.get(axis, 3)))}), room),
        (replace(client, spare={**client.spare, spot: draw(st.integers(0, client.spare.get(spot, 3)))}), room),
        (replace(client, conditions=client.conditions | {condition}), room),
        (replace(client, rises_unaided=False), room), (replace(client, alone=True), room),
        (replace(client, kit=kit - {draw(st.sampled_from(own.KIT))}), room),
        (replace(client, shown=frozenset(sorted(client.shown)[1:])), room),
        (client, replace(room, floor=False)), (client, replace(room, noise=False)),
        (client, replace(room, space=Space.SMALL)),
    ]
    return (client, room), draw(st.sampled_from(fewer))


@BIG
@given(worse_caps(), own.diaries | own.mild_diaries, own.session_ids, st.booleans())
def test_more_forbidden_never_gives_more_work(pair: Any, diary: Diary, session: str, whole: bool) -> None:
    """A stand-in takes the time of what it stands in for, or less."""
    some, more = (compiled(session, client, room, diary, whole_library=whole) for client, room in pair)
    assert effort_ms(more) <= effort_ms(some)
    assert more.dose.rounds <= some.dose.rounds
    left_some, left_more = ({o.exercise for o in t.left_out} for t in (some, more))
    assert left_some <= left_more


# ------------------------------------------------------------------ what the software refuses

@pytest.mark.parametrize("symptoms", [None, *(frozenset({s}) for s in Symptom if s is not Symptom.HEAD_COLD)])
def test_no_session_starts_on_an_unanswered_or_positive_stop_question(symptoms: frozenset[Symptom] | None) -> None:
    """There is nothing to play."""
    for session in shipped().sessions:
        assert compiled(session.id, diary=replace(WELL, symptoms=symptoms)).steps == ()


@pytest.mark.parametrize("rated", [0, 1, 2, 3])
@pytest.mark.parametrize("position", sorted(rulebook.ON_FLOOR))
def test_nobody_who_cannot_get_up_is_sent_to_the_floor_however_it_is_rated(position: str, rated: int) -> None:
    """Lying down is lying down, even where a coach rated it as nothing."""
    down = exercise("a", position=Position(position), demand={Axis.FLOOR_TRANSFER: rated})
    for client in (Client(alone=True, rises_unaided=False), Client(conditions=frozenset({Condition.CANNOT_RISE})),
                   Client(spare={own.Spot(own.generators.Region.FLOOR): 1})):
        got = _plan(client, down)
        assert got.steps == () and [o.because for o in got.left_out] == [("floor_transfer",)]
    got = _plan(Client(), down, room=Place(floor=False))
    assert got.steps == () and [o.because for o in got.left_out] == [("floor",)]
    assert _plan(Client(), down).steps


@pytest.mark.parametrize("rated", [1, 2, 3])
@pytest.mark.parametrize("support", Support)
def test_nobody_who_falls_balances_without_a_hold(support: Support, rated: int) -> None:
    """With a hand that stays on something up to a narrow base, and never further."""
    unheld = 0 if support is Support.REQUIRED else rated
    stand = exercise("a", demand={Axis.SINGLE_LEG_BALANCE: rated, Axis.UNHELD_BALANCE: unheld}, support=support)
    got = _plan(Client(conditions=frozenset({Condition.FALLS})), stand)
    assert bool(got.steps) == (support is not Support.NONE and rated <= 2)


@pytest.mark.parametrize("rated", [1, 2, 3])
@pytest.mark.parametrize("support", Support)
def test_who_falls_gets_no_more_of_an_older_programme_than_before(support: Support, rated: int) -> None:
    """Where nobody rated balance without a hand, a hand that may stay on something is not taken for one that does."""
    stand = exercise("a", demand={Axis.SINGLE_LEG_BALANCE: rated}, support=support)
    got = _plan(Client(conditions=frozenset({Condition.FALLS})), stand)
    assert bool(got.steps) <= (support is not Support.NONE and rated <= 1)


def test_alone_nothing_that_was_never_shown_is_put_in() -> None:
    """Shown, or explaining itself; what the coach wrote stands as written."""
    deep = exercise("a", demand={Axis.KNEELING: 2}, easier=(Option("b"),))
    for client, does in ((Client(limits={Axis.KNEELING: 1}), ["b", "b"]),
                         (Client(limits={Axis.KNEELING: 1}, alone=True), []),
                         (Client(limits={Axis.KNEELING: 1}, alone=True, shown=frozenset({"b"})), ["b", "b"]),
                         (Client(alone=True), ["a", "a"])):
        assert [s.exercise for s in efforts(_plan(client, deep, exercise("b")))] == does
    got = _plan(Client(limits={Axis.KNEELING: 1}, alone=True), deep, exercise("b", self_explanatory=True))
    assert [s.exercise for s in efforts(got)] == ["b", "b"]


def test_same_as_always_swaps_nothing_and_leaves_out() -> None:
    """Order and moves stay for someone who is lost by change."""
    deep = exercise("a", demand={Axis.KNEELING: 2}, easier=(Option("b"),))
    got = _plan(Client(limits={Axis.KNEELING: 1}, same_as_always=True), deep, exercise("b"))
    assert (got.steps, got.substitutions) == ((), ())
    assert [(o.exercise, o.because) for o in got.left_out] == [("a", ("kneeling",))]


@pytest.mark.parametrize(("pain", "most"), [(3, 3), (4, 1), (5, 1), (6, 0), (7, 0)])
@pytest.mark.parametrize("side", ["left", "right", ""])
def test_a_sore_joint_is_spared_on_both_sides(pain: int, most: int, side: str) -> None:
    """4–5 allows a demand of 1, 6–7 none, whichever side it is."""
    diary = but(pain={own.Spot(KNEE.region, side): pain})
    for rated in range(4):
        bend = exercise("a", demand={Axis.DEEP_KNEE_FLEXION: rated}, sides=Sides.EACH)
        got = _plan(Client(), bend, diary=diary)
        assert {str(s.side) for s in efforts(got)} == ({"left", "right"} if rated <= most else set())


# ------------------------------------------------------------------ the nearest

FREE = Limits(dict.fromkeys(Axis, 1) | {Axis.HARD_HOLD: 3}, frozenset({"chair"}))
DEEP = exercise("deep", demand={Axis.KNEELING: 3}, muscles=("thighs",), easier=(Option("less"),),
                swaps=(Option("swap"),))


def chosen_from(*others: Exercise, written: Exercise = DEEP, taken: frozenset[str] = frozenset(), whole: bool = False,
                limits: Limits = FREE) -> str | None:
    """The id that is chosen in place of `deep`."""
    got = choose(written, {e.id: e for e in (written, *others)}, Client(), limits, taken, whole_library=whole)
    return got.exercise.id if got.exercise else None


def test_first_the_ladder_then_the_approved_swap_then_the_library_then_a_hold_or_a_seat() -> None:
    """Each tier only when the one before has nothing."""
    less = exercise("less", pattern=Pattern.HINGE, muscles=("back",))
    swap = exercise("swap", pattern=Pattern.HINGE, muscles=("back",))
    far = exercise("far", pattern=Pattern.SQUAT, muscles=("thighs",))
    seat = exercise("seat", pattern=Pattern.HINGE, position=Position.SEATED, muscles=("thighs",))
    held = exercise("held", pattern=Pattern.HINGE, mode=Mode.HOLD, rep_ms=0, hold_s=20, muscles=("thighs",))
    bare = replace(DEEP, easier=(), swaps=())
    assert chosen_from(less, swap, far, seat, held, whole=True) == "less"
    assert chosen_from(swap, far, seat, held, written=replace(DEEP, easier=()), whole=True) == "swap"
    assert chosen_from(far, seat, held, written=bare, whole=True) == "far"
    assert chosen_from(far, seat, written=bare) == "seat"
    assert chosen_from(far, held, written=bare) == "held"
    assert chosen_from(far, written=bare) is None


def test_the_nearest_rung_that_is_allowed_is_taken() -> None:
    """One rung down is too much today; two are not."""
    less = exercise("less", demand={Axis.KNEELING: 2}, easier=(Option("least"),))
    least = exercise("least", demand={Axis.KNEELING: 1})
    assert chosen_from(less, least) == "least"
    library_of = {e.id: e for e in (DEEP, less, least)}
    assert [(e.id, d) for e, d in ladder_down(DEEP, library_of)] == [("less", 1), ("least", 2)]


def test_a_ladder_that_runs_in_a_circle_ends() -> None:
    """Each rung once."""
    a, b = exercise("a", easier=(Option("b"),)), exercise("b", easier=(Option("a"),))
    assert [(e.id, d) for e, d in ladder_down(a, {"a": a, "b": b})] == [("b", 1)]


def test_muscles_and_pattern_then_position_then_the_id_decide_among_equals() -> None:
    """The least loss, and ties by id."""
    rungs = (Option("m"), Option("n"), Option("o"), Option("p"))
    written = replace(DEEP, easier=rungs)
    keeps = exercise("p", muscles=("thighs",))
    moved = exercise("o", muscles=("thighs",), position=Position.SEATED)
    other = exercise("m", pattern=Pattern.HINGE, muscles=("thighs",))
    lost = exercise("n", pattern=Pattern.HINGE, muscles=("arms",))
    assert chosen_from(keeps, moved, other, lost, written=written) == "p"
    assert chosen_from(moved, other, lost, written=written) == "o"
    assert chosen_from(other, lost, written=written) == "m"
    assert chosen_from(keeps, exercise("n", muscles=("thighs",)), written=written) == "n"


def test_nothing_is_repeated_within_a_round_while_there_is_something_else() -> None:
    """Of two rungs the one that is not there already; the same again when it is all there is."""
    written = replace(DEEP, easier=(Option("m"), Option("n")))
    one, two = exercise("m"), exercise("n")
    assert chosen_from(one, two, written=written) == "m"
    assert chosen_from(one, two, written=written, taken=frozenset({"m"})) == "n"
    assert chosen_from(one, written=written, taken=frozenset({"m"})) == "m"


def test_from_the_library_nothing_comes_that_asks_more_anywhere() -> None:
    """A stand-in for the knee is not paid for by the shoulder."""
    bare = replace(DEEP, easier=(), swaps=())
    worse = exercise("far", muscles=("thighs",), demand={Axis.OVERHEAD_SHOULDER: 1})
    assert chosen_from(worse, written=bare, whole=True) is None


def test_a_stretch_never_stands_in_for_strength_from_the_library() -> None:
    """Nor the other way round."""
    bare = replace(DEEP, easier=(), swaps=())
    stretch = exercise("seat", pattern=Pattern.MOBILITY, position=Position.SEATED, muscles=("thighs",))
    assert chosen_from(stretch, written=bare) is None
    assert chosen_from(replace(stretch, pattern=Pattern.ISOLATION), written=bare) == "seat"


@settings(max_examples=examples(50, 2_000))
@given(own.small_sessions(), st.dictionaries(st.sampled_from(Axis), st.integers(0, 2), max_size=3))
def test_every_round_is_the_same_and_a_choice_says_what_spoke_against(small: Any, capped: dict[Axis, int]) -> None:
    """One decision for each station."""
    session, known = small
    got = compile_timeline(Order(session, known, Client(limits=capped), Place(), TODAY, WELL))
    for change in got.substitutions:
        over = {a.value for a, most in capped.items() if known[change.written].demand.get(a, 0) > most}
        floor = known[change.written].on_floor and capped.get(Axis.FLOOR_TRANSFER, 3) < 2
        assert set(change.because) == over | ({"floor_transfer"} if floor else set())


@pytest.mark.parametrize(("written", "actual", "rest_side", "bouts"), [
    (Sides.EACH, Sides.EACH, "", ["left", "right"]), (Sides.EACH, Sides.BOTH, "", ["both"]),
    (Sides.EACH, Sides.ALTERNATING, "", ["alternating"]), (Sides.BOTH, Sides.EACH, "", ["alternating"]),
    (Sides.BOTH, Sides.BOTH, "", ["both"]), (Sides.ALTERNATING, Sides.EACH, "", ["alternating"]),
    (Sides.EACH, Sides.EACH, "left", ["right"]), (Sides.EACH, Sides.BOTH, "left", ["both"]),
    (Sides.BOTH, Sides.EACH, "right", ["left"])])
def test_a_stand_in_takes_the_time_of_what_it_stands_in_for(written: Sides, actual: Sides, rest_side: str,
                                                           bouts: list[str]) -> None:
    """A bout for each side where both have one; else one, so that no limb works twice; a side that rests leaves one."""
    arm: dict[str, Any] = {"position": Position.SEATED, "loads": (Limb.ARM,), "leans_on": ()}
    deep = exercise("a", demand={Axis.KNEELING: 2}, sides=written, easier=(Option("b"),), **arm)
    arm["loads"] = () if rest_side and actual is Sides.BOTH else (Limb.ARM,)
    client = Client(limits={Axis.KNEELING: 1}, rest_side=rest_side)
    done = [s for s in efforts(_plan(client, deep, exercise("b", sides=actual, **arm))) if s.round == 1]
    assert [(str(s.side), s.length_ms) for s in done] == [(side, 30_000) for side in bouts]
