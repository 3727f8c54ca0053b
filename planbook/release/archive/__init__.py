"""The archive: released versions on disk. `disk` alone touches it for writing; readers see whole versions only."""
