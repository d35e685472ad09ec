// Nothing: some targets are only there for what they are built with, and CMake wants a file.
