"""source: the one door to files, the content models, and reading a plan set with every value's place kept."""

from planbook.source.door import Door, Refused
from planbook.source.load import list_sets, load
from planbook.source.schemas import json_schemas, write_schemas

__all__ = ["Door", "Refused", "json_schemas", "list_sets", "load", "write_schemas"]
