"""The exhaustive proof of the engine, run by `make prove`: every problem of a range, each judged by the referee."""
