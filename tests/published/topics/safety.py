"""Safety: facts that the screens tell; the core finds none of them."""

TOPIC = "12 safety"

NOT_APPLICABLE: dict[int, str] = {
    478: "what a standard asks of a wiring device; told where mains power is met, not computed",
    479: "an accident statistic; the reason for the warning on digging, not a number in use",
    480: "an accident statistic; the reason for the warning on digging, not a number in use",
    481: "a guideline for lifting, in words and from memory; nothing is computed from it",
}
