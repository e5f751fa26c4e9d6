"""Pure rules of the forecast. Time is in whole slots (say half an hour), work in slots of the builder's own time."""
