// How do shells complete a call? Scripts made from the definitions of commands.
#pragma once

#include <iosfwd>

#include "grammar.hpp"

namespace ligament::cli {

void write_bash_completion(std::ostream& out, const ProgramWords& program);
void write_zsh_completion(std::ostream& out, const ProgramWords& program);
void write_fish_completion(std::ostream& out, const ProgramWords& program);

}  // namespace ligament::cli
