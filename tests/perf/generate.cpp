// What does a rig of N bones look like to a program that reads it? Writes one, as a short export script would, one bone a line.
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include "rig_text.hpp"

namespace {

int usage() {
    std::fputs(
        "usage: perf_generate BONES [--seed N] [--cycles N] [--orphans N] [--switches N] [--hubs N] > RIG\n"
        "  --cycles    that many planted cycles, of four kinds in turn (0)\n"
        "  --orphans   that many deform bones that no control reaches (0)\n"
        "  --switches  the most limbs that get a switch of their own (all)\n"
        "  --hubs      the most switches that reach over several limbs (all)\n",
        stderr);
    return 2;
}

}  // namespace

int main(int count, char** words) {
    ligament::perf::RigShape shape;
    const struct {
        const char* name;
        std::uint64_t* value;
    } options[] = {{"--seed", &shape.seed},
                   {"--cycles", &shape.cycles},
                   {"--orphans", &shape.orphans},
                   {"--switches", &shape.switches},
                   {"--hubs", &shape.hubs}};
    for (int i = 1; i < count; ++i) {
        std::uint64_t* value = i == 1 ? &shape.bones : nullptr;
        for (const auto& option : options)
            if (i + 1 < count && std::strcmp(words[i], option.name) == 0) value = option.value;
        if (value == nullptr) return usage();
        if (i > 1) ++i;
        char* end = nullptr;
        *value = std::strtoull(words[i], &end, 10);
        if (end == words[i] || *end != '\0') return usage();
    }
    const ligament::perf::Write write = [](std::string_view text) {
        if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) std::exit(2);
    };
    if (!ligament::perf::write_rig_text(shape, write)) {
        std::fputs("perf_generate: too few bones: a pair of limbs has 60, and what is planted comes on top\n", stderr);
        return 2;
    }
    return std::fflush(stdout) == 0 ? 0 : 2;
}
