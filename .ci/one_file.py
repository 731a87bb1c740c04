# Where the single-file program begins. There is no interpreter in it, so it also plays the part of `-m MODULE`.
import runpy
import sys

from claimpack.__main__ import main

if __name__ == "__main__":
    if sys.argv[1:3] == ["-P", "-m"]:
        runpy.run_module(sys.argv[3], run_name="__main__")
    else:
        main()
