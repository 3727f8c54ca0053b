"""source/models"""
