"""How values look: numbers, marks, cells."""
