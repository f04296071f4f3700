// Writes the marsh warden, who keeps the heron company, as a VRM 1.0 file: make_warden FILE
#include <cstdio>
#include <exception>
#include <fstream>

#include "warden/warden.hpp"

int main(int count, char** words) try {
    if (count != 2) {
        std::fputs("usage: make_warden FILE\n", stderr);
        return 2;
    }
    std::ofstream file(words[1], std::ios::binary);
    file << warden::write_vrm(warden::build_warden()) << std::flush;
    if (file) return 0;
    std::fprintf(stderr, "cannot write %s\n", words[1]);
    return 2;
} catch (const std::exception& error) {
    std::fprintf(stderr, "make_warden: %s\n", error.what());
    return 3;
}
