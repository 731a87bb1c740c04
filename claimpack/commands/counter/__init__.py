"""The service writer's commands: a unit taken in, claims looked up, changed and told."""
