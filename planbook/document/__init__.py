"""document"""
