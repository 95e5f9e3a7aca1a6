"""What needs a validator that pip cannot bring."""
