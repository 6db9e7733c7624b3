"""A rig that was found: as facts, view, text, set-up steps and drawing."""
