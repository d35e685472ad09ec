// All of handlaid for a machine without threads or files.
#include "handlaid/core/executor.hpp"
#include "handlaid/grid/runs.hpp"

int main() { return 0; }
