"""What these rules do not reach, and the papers that go with a plan."""
