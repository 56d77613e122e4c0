"""The demo: invented people whose six weeks are lived through by the real engine."""
