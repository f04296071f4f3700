#include "drawn.hpp"

#include <iostream>
#include <stdexcept>

#include "ligament/report.hpp"
#include "status.hpp"
#include "stop.hpp"

namespace ligament::cli {

void expect_drawn(const std::string& path, const Drawing& drawing) {
    if (drawing.error.empty()) return;
    const std::string reason = "no drawing of " + path + ": " + drawing.error;
    if (drawing.ran_out_of_memory) throw Unusable(reason + ", " + memory_bound());
    throw std::runtime_error(reason);
}

void print_notice(const std::string& path, const Drawing& drawing) {
    if (drawing.notice.empty()) return;
    const std::string bound = drawing.ran_out_of_memory ? "; " + memory_bound() : "";
    std::cerr << printable(path) << ": " << printable(drawing.notice + bound) << '\n';
}

}  // namespace ligament::cli
