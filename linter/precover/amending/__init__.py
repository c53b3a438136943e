"""Ways out, proved: proposals applied to the plan, reviewed again, combined, and written into the file."""
