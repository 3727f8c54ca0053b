"""shape"""
