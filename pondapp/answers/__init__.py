"""One folder for each question: stored models in, frozen answers out."""
