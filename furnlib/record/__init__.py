"""Floor 5: what is kept. The packet for the bench, and the stamp that ties a sheet to its inputs."""
