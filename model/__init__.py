"""Knitting: from a description to its rows, outline and yarn. Start with `plan` or `plan_parsed`."""

from halfhank.model.planning import plan, plan_parsed

__all__ = ["plan", "plan_parsed"]
