"""How long things take, each as a ratio to a floor measured in the same run: `python -m tests.bench`."""
