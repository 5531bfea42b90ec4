"""One maker for each kind of thing that is printed: drawings, then sheets, then bytes."""
