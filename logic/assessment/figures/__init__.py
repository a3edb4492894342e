"""One module for each kind of place; one function for each row of figures."""
