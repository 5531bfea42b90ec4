"""Labels for plugs, jumpers, holes, supplies, devices and feed holes."""
