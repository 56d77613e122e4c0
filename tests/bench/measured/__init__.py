"""One script for each row of the table, run in a process of its own on the code of the checkout that it stands in.

Each prints JSON: `spent` and `floor`, lists of ms taken by turns, and `facts`, what was measured. They import nothing
of `tests.bench`, since another checkout has another one, and find the program's modules by any of the
names that they have had.
"""
