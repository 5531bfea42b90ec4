"""labelgen: from one wiring description to the labels, panel and schedules of a model railway."""
