"""What a keeper asks all year: water changes, doses, what the air takes, a pump that stops."""
