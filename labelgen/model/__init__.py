"""The nouns: the few frozen records that pass between the stages."""
