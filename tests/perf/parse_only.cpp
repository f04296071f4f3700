// What does it cost to do nothing but build a JSON document tree? What anyone would start from.
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>

int main(int count, char** arguments) {
    if (count != 2) return 2;
    std::ifstream in(arguments[1], std::ios::binary);
    const nlohmann::json document = nlohmann::json::parse(in);
    std::printf("%zu\n", document.size());
}
