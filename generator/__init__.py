"""Ringfence: from a catalogue of connectors, ports and leads to judged connections, drawings and a site."""
