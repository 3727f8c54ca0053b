"""Tests on the plan sets and market tables that come with planbook."""
