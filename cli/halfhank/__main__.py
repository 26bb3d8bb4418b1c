"""`python -m halfhank` is the same as the `halfhank` command."""

from halfhank.cli.main import main

if __name__ == "__main__":
    main()
