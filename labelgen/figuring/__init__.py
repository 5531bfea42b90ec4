"""From a netlist to electrical figures: what each throw gives its coils, what each steady load draws."""
