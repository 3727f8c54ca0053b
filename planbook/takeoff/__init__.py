"""What a builder buys and cuts: lists, plans of cutting, hardware, finish, cost."""

from planbook.takeoff.model import ListRow
from planbook.takeoff.taking import TakenOff, take_off
from planbook.takeoff.weighing import weigh

__all__ = ["ListRow", "TakenOff", "take_off", "weigh"]
