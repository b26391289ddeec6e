"""`python -m witnessmark`."""

from witnessmark.cli import main

if __name__ == "__main__":
    main()
