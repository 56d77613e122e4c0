"""What finds the next fault: hostile inputs, power cuts, wrong clocks, a cut network. `python -m tests.trust`."""
