"""Settings that hold in every room's tests."""

from hypothesis import settings

# A test measures no time: a busy machine is no fault of the program.
settings.register_profile("planbook", deadline=None)
settings.load_profile("planbook")
