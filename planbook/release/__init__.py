"""release"""
