"""One module per question: stored models in, frozen answers out."""
