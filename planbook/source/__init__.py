"""source: the one door to files, the content models, and reading a plan set with every value's place kept."""

from planbook.source.door import Door, Refused, packaged_defaults
from planbook.source.load import SET_NAME, list_sets, load
from planbook.source.schemas import json_schemas, write_schemas

__all__ = ["SET_NAME", "Door", "Refused", "json_schemas", "list_sets", "load", "packaged_defaults", "write_schemas"]
