"""Drawing to Sheet: where every label goes on paper."""
