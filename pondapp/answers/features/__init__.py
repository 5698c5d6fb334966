"""What filters, lips, jets and skimmers want."""
