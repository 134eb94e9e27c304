"""Maps: described once in metres and millimetres, painted by one painter on screen, paper and picture."""
