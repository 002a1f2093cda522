"""Small pure steps, one for each topic, each taking the design and earlier results."""
