"""Broken figures are seen: more than twenty faults planted into good ones, in the poses and in the export."""
from __future__ import annotations

import json

import pytest

from app.domain.figure.checking.figure_checks import check_figure, failed
from app.domain.figure.checking.figure_finding import FigureCheck
from tests.domain.figure_faults import EXPORT_FAULTS, FAULTS, ExportFault, FigureFault
from tests.domain.figures import NAMES, example, exported, failed_export, motion_of

#: Cannot be planted by poses: the solver gives the first three, and the square is fitted to the figure.
BY_CONSTRUCTION = {FigureCheck.LENGTH, FigureCheck.MIRROR, FigureCheck.MARGIN}


@pytest.mark.parametrize("name", NAMES)
def test_the_figures_without_a_fault_pass(name: str) -> None:
    """So that what is seen below is the fault and nothing else."""
    assert failed(motion_of(example(name))) == ()


@pytest.mark.parametrize("fault", FAULTS, ids=lambda f: f.name)
def test_a_fault_in_the_poses_is_seen(fault: FigureFault) -> None:
    """By the very check that is there for it."""
    table = example(fault.figure)
    fault.plant(table)
    assert fault.seen_by in {finding.check for finding in failed(motion_of(table))}


@pytest.mark.parametrize("fault", EXPORT_FAULTS, ids=lambda f: f.name)
def test_a_fault_in_the_export_is_seen(fault: ExportFault) -> None:
    """The poses are good, and the file is not."""
    table = example(fault.figure)
    document = json.loads(exported(table))
    assert failed_export(motion_of(table), json.dumps(document)) == ()
    fault.plant(document)
    assert fault.seen_by in {f.check for f in failed_export(motion_of(table), json.dumps(document))}


def test_at_least_twenty_faults_and_every_check_has_one() -> None:
    """A check that no fault can reach would be worth nothing."""
    assert len({fault.name for fault in (*FAULTS, *EXPORT_FAULTS)}) == len(FAULTS) + len(EXPORT_FAULTS) >= 20
    reached = {fault.seen_by for fault in (*FAULTS, *EXPORT_FAULTS)}
    assert reached >= set(FigureCheck) - BY_CONSTRUCTION
    made = {f.check for name in NAMES for f in check_figure(motion_of(example(name)))}
    assert made == set(FigureCheck)
