// The program `ligament`: see program.cpp for how a call runs and commands.cpp for what it can do.
#include "program.hpp"

int main(int argc, char** argv) { return ligament::cli::run_program(argc, argv); }
