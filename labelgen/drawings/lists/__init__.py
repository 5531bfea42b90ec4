"""Printed lists: blocks and pages of all of them; cut list, routes, operator's card, what to remove and fit."""
