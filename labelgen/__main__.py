"""`python -m labelgen` is `labelgen`."""

from labelgen.command_line import main

if __name__ == "__main__":
    main()
