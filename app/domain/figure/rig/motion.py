"""A figure in motion: its state at every second of its round."""
from __future__ import annotations

from app.domain.errors import UnknownName
from app.domain.figure.rig.body_model import Skeleton, skeleton
from app.domain.figure.rig.figure_data import Figure, Repeat
from app.domain.figure.rig.pose import CHANNELS, FREE, Track, holds, track
from app.domain.figure.rig.solve import Solver, State, mirrored

_END = 1e-9


class FigureMotion:
    """A figure made ready to be asked for its state at any second. States are kept, since many ask for the same.

    Raises:
        WrongValue: a limb that is held in one pose and not in another.
        UnknownName: an anchor that this view does not have.
    """

    def __init__(self, figure: Figure) -> None:
        self.figure = figure
        self.skeleton: Skeleton = skeleton(figure.view, figure.stance, figure.lengths)
        anchors = [(0.0, figure.anchor), *((key.at_s, key.anchor) for key in figure.keys if key.anchor)]
        for _, anchor in anchors:
            if anchor.part not in (*FREE, *self.skeleton.landmarks):
                raise UnknownName(kind="anchor", name=anchor.part, known=tuple(self.skeleton.landmarks),
                                  where=figure.id)
        self.tracks: dict[str, Track] = {}
        self.still: dict[str, float] = {}
        for name in CHANNELS:
            values = [key.pose.channels[name] for key in figure.keys]
            if any(v != values[0] for v in values):
                self.tracks[name] = track(figure.keys, values)
            else:
                self.still[name] = values[0]
        self.holds = holds(figure)
        self.effort = track(figure.keys, [key.effort for key in figure.keys])
        self._solvers = [(at, Solver(self.skeleton, anchor, figure.bend, figure.pointed_toes))
                         for at, anchor in anchors]
        self._known: dict[float, State] = {}

    @property
    def knots_s(self) -> tuple[float, ...]:
        """Seconds at which something may change its course, over the whole period."""
        own = [key.at_s for key in self.figure.keys]
        again = [t + self.figure.round_s for t in own] if self.figure.repeat is Repeat.ALTERNATE else []
        return tuple(sorted({*own, *again}))

    def at(self, t: float) -> State:
        """The state at that second, counted on from the end of the period as from its beginning."""
        figure = self.figure
        t = round(t % figure.period_s if t >= figure.period_s else t, 9)
        known = self._known.get(t)
        if known is None:
            second = figure.repeat is Repeat.ALTERNATE and t >= figure.round_s
            within = t - figure.round_s if second else t
            known = self._solved(within)
            self._known[t] = known = mirrored(known) if second else known
        return known

    def _solved(self, t: float) -> State:
        channels = {**self.still, **{name: way(t) for name, way in self.tracks.items()}}
        pins = {name: hold.at(t) for name, hold in self.holds.items()}
        solver = next(solver for at, solver in reversed(self._solvers) if t >= at - _END)
        return solver.solve(channels, pins, self.effort(t))

    def last(self) -> State:
        """The state right before everything begins anew."""
        return self.at(self.figure.period_s - _END)
