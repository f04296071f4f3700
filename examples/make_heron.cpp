// Writes the marsh heron, as a rig description or inside a glTF 2.0 file: make_heron [--faulty | --before] [--gltf] FILE
#include <cstdio>
#include <exception>
#include <fstream>
#include <string>
#include <vector>

#include "heron/gltf.hpp"
#include "heron/heron.hpp"
#include "ligament/read.hpp"

int main(int count, char** words) try {
    std::vector<std::string> arguments(words + 1, words + count);
    const bool faulty = std::erase(arguments, "--faulty") > 0;
    const bool before = std::erase(arguments, "--before") > 0;
    const bool in_gltf = std::erase(arguments, "--gltf") > 0;
    if (arguments.size() != 1 || (faulty && before)) {
        std::fputs("usage: make_heron [--faulty | --before] [--gltf] FILE\n", stderr);
        return 2;
    }
    const ligament::Rig rig = faulty ? heron::build_faulty_heron() : before ? heron::build_heron_before() : heron::build_heron();
    std::ofstream file(arguments.front(), std::ios::binary);
    file << (in_gltf ? heron::write_gltf(rig) : ligament::write_rig(rig)) << std::flush;
    if (file) return 0;
    std::fprintf(stderr, "cannot write %s\n", arguments.front().c_str());
    return 2;
} catch (const std::exception& error) {
    std::fprintf(stderr, "make_heron: %s\n", error.what());
    return 3;
}
