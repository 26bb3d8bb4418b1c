"""Knitting: from a description to its rows, outline and yarn. Start with `halfhank.model.planning.planning`."""
