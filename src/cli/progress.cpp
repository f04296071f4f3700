#include "progress.hpp"

#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <string_view>

namespace ligament::cli {

Progress::Progress(std::size_t all) : all_(all) {
    const char* terminal = std::getenv("TERM");
    is_wanted_ = all > 1 && isatty(STDERR_FILENO) == 1 && (terminal == nullptr || std::string_view(terminal) != "dumb");
}

void Progress::show(std::size_t done) {
    if (!is_wanted_) return;
    std::cerr << "\rchecked " << done << " of " << all_ << " rigs\x1b[K" << std::flush;
    is_shown_ = true;
}

void Progress::clear() {
    if (is_shown_) std::cerr << "\r\x1b[K" << std::flush;
    is_shown_ = false;
}

}  // namespace ligament::cli
