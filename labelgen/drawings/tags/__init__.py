"""Tags with QR symbols (ISO/IEC 18004), and the symbols."""
