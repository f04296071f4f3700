// What does it cost to read JSON and keep nothing of it?
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>

int main(int count, char** arguments) {
    if (count != 2) return 2;
    std::ifstream in(arguments[1], std::ios::binary);
    return nlohmann::json::accept(in) ? 0 : 1;
}
