"""`Netlist` to `TestPlan`: what is tested with a meter, with the fewest readings, in walking order."""
