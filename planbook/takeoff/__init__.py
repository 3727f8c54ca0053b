"""takeoff"""
