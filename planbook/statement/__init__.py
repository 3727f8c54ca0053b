"""statement"""
