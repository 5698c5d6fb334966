"""The pondapp command."""


def main() -> None:
    """Build when needed and serve."""


if __name__ == "__main__":
    main()
