"""dimension"""
