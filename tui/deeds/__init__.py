"""What keys and menus do, one module for each subject; loaded when first asked for."""
