"""planbook: a compiler from a versioned content tree to a paginated plan set, metric and imperial from one source."""

__version__ = "0.1.0"
